using System.Globalization;

namespace StoreMap.Tests;

public class CultureTests
{
    [Fact]
    public void TestsRunUnderADecimalComma() => Assert.Equal("1,5", 1.5.ToString(CultureInfo.CurrentCulture));
}
