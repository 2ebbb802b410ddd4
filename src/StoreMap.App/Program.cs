using System.Text;
using StoreMap.App.Shell;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
using var stop = new CancellationTokenSource();
Console.CancelKeyPress += (_, e) =>
{
    e.Cancel = true;
    stop.Cancel();
};
return new Host(Console.In, Console.Out, Console.Error, showProgress: !Console.IsErrorRedirected).Run(args, stop.Token);
