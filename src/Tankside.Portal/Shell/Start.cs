using Tankside.Portal.Commands;

namespace Tankside.Portal.Shell;

/// <summary>The first steps of the program: environment, address, configuration.</summary>
public static class Start
{
    private const string DefaultAddress = "http://localhost:5080";

    public static WebApplicationBuilder Builder(string[] args, out Command? command)
    {
        command = CommandLine.Parse(args);
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            Args = command is null ? args : [],
            EnvironmentName = EnvironmentName(args),
        });

        // A build that was not published finds its styles and scripts only through this.
        builder.WebHost.UseStaticWebAssets();
        if (string.IsNullOrEmpty(builder.Configuration[WebHostDefaults.ServerUrlsKey]))
        {
            builder.WebHost.UseUrls(DefaultAddress);
        }

        return builder;
    }

    public static TanksideOptions? TryReadOptions(WebApplicationBuilder builder)
    {
        try
        {
            return TanksideOptions.From(builder.Configuration, builder.Environment);
        }
        catch (ConfigurationException e)
        {
            Console.Error.WriteLine($"Not started. {e.Message}");
            return null;
        }
    }

    /// <summary>A published program is production. A build run in its own source tree is development, unless the environment says otherwise.</summary>
    private static string? EnvironmentName(string[] args)
    {
        if (args.Any(a => a.StartsWith("--environment", StringComparison.OrdinalIgnoreCase)))
        {
            return null;
        }

        var given = Environment.GetEnvironmentVariable("ASPNETCORE_ENVIRONMENT") ?? Environment.GetEnvironmentVariable("DOTNET_ENVIRONMENT");
        return given is null && File.Exists(Path.Combine(AppContext.BaseDirectory, "Tankside.Portal.staticwebassets.runtime.json"))
            ? Environments.Development
            : null;
    }
}
