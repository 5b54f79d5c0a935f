using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Portal.Demo.Simulated;

/// <summary>What fails at a made-up tank now and then.</summary>
public enum SimulatedFault
{
    None,
    ChillerStops,
    CoilIces,
    PumpStops,
}

/// <summary>
/// The water of one made-up tank: held near its set point, and left to itself when a fault begins, until somebody mends it. How often
/// things fail is judgement; how fast water warms is the portal's own formula.
/// </summary>
internal sealed class SimulatedWater
{
    /// <summary>Chance an hour that a fault begins: one tank in four has one in a season of four months.</summary>
    private const double FaultsPerHour = 1e-4;

    private const double IcePerHour = 0.12, ColdestC = 3, SensorSd = 0.08;

    private readonly DemoDice dice;
    private readonly double setPoint;
    private readonly double room;
    private readonly double settlesAt;
    private readonly double tau;
    private double celsius;
    private double hoursLeft;

    public SimulatedWater(Hatchery.Places.Tank tank, DemoDice dice)
    {
        this.dice = dice;
        setPoint = tank.SetPointC + dice.Around(0, 0.15);
        room = tank.RoomC;
        settlesAt = Warming.SettlesAt(new Celsius(room), new Litres(tank.Litres), tank.Jacket).Degrees;
        tau = Warming.TimeConstant(new Litres(tank.Litres), tank.Jacket).MidHours;
        celsius = setPoint;
    }

    public SimulatedFault Fault { get; private set; }

    public bool ChillerRuns => Fault switch
    {
        SimulatedFault.ChillerStops => false,
        SimulatedFault.CoilIces => true,
        _ => celsius > setPoint,
    };

    /// <summary>What a logger's probe says of the water, to a tenth.</summary>
    public double ReadC => Math.Round(celsius + dice.Around(0, SensorSd), 1);

    public double RoomC(double hourOfDay) => Math.Round(room + Math.Sin((hourOfDay - 9) * Math.PI / 12), 1);

    /// <summary>Lets time pass.</summary>
    public void Pass(double hours)
    {
        if (Fault == SimulatedFault.None && dice.Chance(FaultsPerHour * hours))
        {
            Fault = (SimulatedFault)dice.Between(1, 3);
            hoursLeft = dice.Between(4, 40);
        }

        celsius = Fault switch
        {
            SimulatedFault.ChillerStops => settlesAt + ((celsius - settlesAt) * Math.Exp(-hours / tau)),
            SimulatedFault.CoilIces => Math.Max(ColdestC, celsius - (IcePerHour * hours)),
            _ => setPoint + ((celsius - setPoint) * Math.Exp(-hours / 3)) + dice.Around(0, 0.05),
        };
        if (Fault != SimulatedFault.None && (hoursLeft -= hours) <= 0)
        {
            Fault = SimulatedFault.None;
        }
    }
}
