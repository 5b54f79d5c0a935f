using Serilog.Core;
using Serilog.Events;

namespace Tankside.Portal.Shell;

/// <summary>
/// The framework adds the path of the request to every line that is logged while it is answered. It is cut here as in the request's own line,
/// because room codes and the secrets of links stand in it.
/// </summary>
public sealed class PathsWithoutSecrets : ILogEventEnricher
{
    private const string Path = "RequestPath";

    public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory)
    {
        if (logEvent.Properties.TryGetValue(Path, out var value) && value is ScalarValue { Value: string path })
        {
            logEvent.AddOrUpdateProperty(new LogEventProperty(Path, new ScalarValue(Logging.Where(path))));
        }
    }
}
