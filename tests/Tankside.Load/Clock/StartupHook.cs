using System.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Hosting;
using Tankside.Load.Clock;

/// <summary>
/// Called by the runtime in a portal that DOTNET_STARTUP_HOOKS points here, before the program: when the portal's host is built, its clock is
/// changed for one that this file's name is told of. The portal as it is shipped knows nothing of it.
/// </summary>
internal static class StartupHook
{
    /// <summary>Names the file of the clock.</summary>
    public const string Variable = "SHOWN_TIME_FILE";

    public static void Initialize()
    {
        if (Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } file)
        {
            DiagnosticListener.AllListeners.Subscribe(new EachListener(new ShownTime(file)));
        }
    }

    private sealed class EachListener(TimeProvider clock) : IObserver<DiagnosticListener>
    {
        public void OnNext(DiagnosticListener value)
        {
            if (value.Name == "Microsoft.Extensions.Hosting")
            {
                value.Subscribe(new WhenBuilt(clock));
            }
        }

        public void OnCompleted()
        {
        }

        public void OnError(Exception error)
        {
        }
    }

    private sealed class WhenBuilt(TimeProvider clock) : IObserver<KeyValuePair<string, object?>>
    {
        public void OnNext(KeyValuePair<string, object?> value)
        {
            if (value is { Key: "HostBuilding", Value: IHostBuilder builder })
            {
                builder.ConfigureServices(services => services.Replace(ServiceDescriptor.Singleton(clock)));
            }
        }

        public void OnCompleted()
        {
        }

        public void OnError(Exception error)
        {
        }
    }
}
