using System.Net;
using System.Net.Sockets;

namespace StoreMap.Tests;

/// <summary>Ports of this machine for the tests' servers.</summary>
/// <remarks>None of those that the system hands out for outgoing connections: while a server is down, such a connection could take its port, even one
/// from the port to itself that only asks whether the server is up again.</remarks>
internal static class Ports
{
    private const int First = 20_000;
    private const int Count = 12_000;

    // Several runs on one machine begin at places of their own.
    private static int next = Environment.ProcessId * 97 % Count;

    /// <summary>A port that nobody listens on, never given twice in a run.</summary>
    public static int Free()
    {
        while (true)
        {
            var port = First + (Interlocked.Increment(ref next) % Count);
            try
            {
                using var listener = new TcpListener(IPAddress.Loopback, port);
                listener.Start();
                return port;
            }
            catch (SocketException)
            {
                // Somebody else's: the next one.
            }
        }
    }
}
