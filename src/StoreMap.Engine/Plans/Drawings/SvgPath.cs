using System.Globalization;
using System.Text.RegularExpressions;

namespace StoreMap.Plans;

/// <summary>Reads the path data of SVG 1.1, section 8.3.</summary>
internal static partial class SvgPath
{
    /// <summary>The subpaths in the path's own coordinates; null when the data is malformed.</summary>
    /// <param name="data">The <c>d</c> attribute.</param>
    /// <param name="sagitta">How far a piece may lie from an arc, in the path's unit.</param>
    public static IReadOnlyList<(bool Closed, IReadOnlyList<PlanPoint> Points)>? Read(string data, double sagitta)
    {
        List<(bool, IReadOnlyList<PlanPoint>)> done = [];
        List<PlanPoint> open = [];
        PlanPoint at = new(0, 0), start = at, control = at;
        var previous = ' ';
        foreach (var (command, numbers) in Commands(data))
        {
            if (numbers is null) return null;
            var relative = char.IsLower(command);
            var kind = char.ToUpperInvariant(command);
            if (kind == 'Z')
            {
                Finish(closed: true);
                (at, control, previous) = (start, start, 'Z');
                continue;
            }

            var take = Arity(kind);
            if (take == 0 || numbers.Count == 0 || numbers.Count % take != 0 || (kind != 'M' && previous == ' ')) return null;
            for (var i = 0; i < numbers.Count; i += take)
            {
                PlanPoint P(int k) => new PlanPoint(numbers[i + k], numbers[i + k + 1]) + (relative ? at : default);
                if (kind == 'M' && i == 0)
                {
                    Finish(closed: false);
                    at = start = P(0);
                }
                else if (open.Count == 0)
                {
                    open.Add(at);
                }

                if (open.Count == 0) open.Add(at);
                var from = at;
                var mirror = (at * 2) - control;
                switch (kind)
                {
                    case 'M' when i == 0: break;
                    case 'M' or 'L': open.Add(at = P(0)); break;
                    case 'H': open.Add(at = at with { X = numbers[i] + (relative ? at.X : 0) }); break;
                    case 'V': open.Add(at = at with { Y = numbers[i] + (relative ? at.Y : 0) }); break;
                    case 'C': open.AddRange(Curves.Bezier(from, P(0), P(2), P(4))); (control, at) = (P(2), P(4)); break;
                    case 'Q': open.AddRange(Curves.Bezier(from, P(0), P(2))); (control, at) = (P(0), P(2)); break;
                    case 'S':
                        var first = previous is 'C' or 'S' ? mirror : from;
                        open.AddRange(Curves.Bezier(from, first, P(0), P(2)));
                        (control, at) = (P(0), P(2));
                        break;
                    case 'T':
                        control = previous is 'Q' or 'T' ? mirror : from;
                        open.AddRange(Curves.Bezier(from, control, P(0)));
                        at = P(0);
                        break;
                    default:
                        var to = P(5);
                        open.AddRange(Arc(from, to, numbers[i], numbers[i + 1], numbers[i + 2], numbers[i + 3] != 0, numbers[i + 4] != 0, sagitta));
                        at = to;
                        break;
                }

                if (kind is not ('C' or 'S' or 'Q' or 'T')) control = at;
                previous = kind;
            }
        }

        Finish(closed: false);
        return done;

        void Finish(bool closed)
        {
            if (open.Count > 1) done.Add((closed || open[0] == open[^1], open[0] == open[^1] ? open[..^1] : [.. open]));
            open.Clear();
        }
    }

    private static int Arity(char kind) => kind switch
    {
        'M' or 'L' or 'T' => 2,
        'H' or 'V' => 1,
        'C' => 6,
        'S' or 'Q' => 4,
        'A' => 7,
        _ => 0,
    };

    // End points to centre: SVG 1.1, appendix F.6.
    private static IEnumerable<PlanPoint> Arc(PlanPoint from, PlanPoint to, double rx, double ry, double degrees, bool large, bool positive, double sagitta)
    {
        (rx, ry) = (Math.Abs(rx), Math.Abs(ry));
        if (rx == 0 || ry == 0 || from == to) return [to];
        var turn = Affine.Turn(degrees);
        PlanPoint u = turn.Of(new PlanPoint(1, 0)), v = turn.Of(new PlanPoint(0, 1));
        var half = (from - to) * 0.5;
        double x = half.Dot(u) / rx, y = half.Dot(v) / ry, square = (x * x) + (y * y);
        if (square > 1) (rx, ry, x, y, square) = (rx * Math.Sqrt(square), ry * Math.Sqrt(square), x / Math.Sqrt(square), y / Math.Sqrt(square), 1);
        var off = Math.Sqrt(Math.Max(0, (1 - square) / square)) * (large == positive ? -1 : 1);
        double cx = off * y, cy = -off * x;
        double start = Math.Atan2(y - cy, x - cx), sweep = Math.Atan2(-y - cy, -x - cx) - start;
        if (positive && sweep < 0) sweep += 2 * Math.PI;
        if (!positive && sweep > 0) sweep -= 2 * Math.PI;
        var centre = ((from + to) * 0.5) + (u * (cx * rx)) + (v * (cy * ry));
        return Curves.Arc(centre, u * rx, v * ry, start, sweep, sagitta).Skip(1).SkipLast(1).Append(to);
    }

    private static IEnumerable<(char Command, IReadOnlyList<double>? Numbers)> Commands(string data)
    {
        foreach (Match match in Command().Matches(data))
        {
            var text = match.Groups[2].Value;
            List<double> numbers = [];
            var sound = true;
            var at = 0;
            foreach (Match number in Numbers().Matches(text))
            {
                sound &= text[at..number.Index].All(c => char.IsWhiteSpace(c) || c == ',') && double.TryParse(number.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
                    && double.IsFinite(value);
                if (sound) numbers.Add(double.Parse(number.Value, NumberStyles.Float, CultureInfo.InvariantCulture));
                at = number.Index + number.Length;
            }

            sound &= text[at..].All(c => char.IsWhiteSpace(c) || c == ',');
            yield return (match.Value[0], sound ? numbers : null);
        }
    }

    [GeneratedRegex(@"([A-Za-z-[eE]])([^A-Za-z-[eE]]*(?:[eE][+-]?\d[^A-Za-z-[eE]]*)*)")]
    private static partial Regex Command();

    [GeneratedRegex(@"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")]
    private static partial Regex Numbers();
}
