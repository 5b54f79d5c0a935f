using Microsoft.AspNetCore.Components.Server.Circuits;

namespace Tankside.Portal.Shell;

/// <summary>How many living pages this portal holds, those too that were lost on the way and may come back.</summary>
public sealed class OpenPages : CircuitHandler
{
    private int count;

    public int Count => Volatile.Read(ref count);

    public override Task OnCircuitOpenedAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Interlocked.Increment(ref count);
        return Task.CompletedTask;
    }

    public override Task OnCircuitClosedAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        Interlocked.Decrement(ref count);
        return Task.CompletedTask;
    }
}
