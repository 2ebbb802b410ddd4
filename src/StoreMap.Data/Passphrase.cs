using System.Globalization;
using System.Security.Cryptography;

namespace StoreMap.Data;

/// <summary>Passphrases kept as PBKDF2-HMAC-SHA256 with a salt of their own. Rounds after the OWASP password storage sheet of 2023: 600,000.</summary>
internal static class Passphrase
{
    private const int Rounds = 600_000;
    private const int SaltBytes = 16;
    private const int HashBytes = 32;

    public static string Hash(string passphrase) => Hash(passphrase, RandomNumberGenerator.GetBytes(SaltBytes), Rounds);

    /// <summary>True when the passphrase is the one kept; takes the same time either way.</summary>
    public static bool Verify(string passphrase, string kept)
    {
        var parts = kept.Split('$');
        var rounds = int.Parse(parts[1], CultureInfo.InvariantCulture);
        var again = Hash(passphrase, Convert.FromBase64String(parts[2]), rounds);
        return CryptographicOperations.FixedTimeEquals(System.Text.Encoding.ASCII.GetBytes(again), System.Text.Encoding.ASCII.GetBytes(kept));
    }

    internal static string Hash(string passphrase, byte[] salt, int rounds)
    {
        var hash = Rfc2898DeriveBytes.Pbkdf2(passphrase, salt, rounds, HashAlgorithmName.SHA256, HashBytes);
        return string.Create(CultureInfo.InvariantCulture, $"pbkdf2-sha256${rounds}${Convert.ToBase64String(salt)}${Convert.ToBase64String(hash)}");
    }
}
