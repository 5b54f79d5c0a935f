namespace Tankside.Portal.Readings.Sheets;

/// <summary>How many rows there are of each fate; they add up to the rows.</summary>
public sealed record RowTotals(int Accepted = 0, int Asked = 0, int Duplicates = 0, int Refused = 0, int Blank = 0)
{
    public int Rows => Accepted + Asked + Duplicates + Refused + Blank;

    public int Stored => Accepted + Asked;

    public RowTotals Plus(RowFate fate) => fate switch
    {
        RowFate.Accepted => this with { Accepted = Accepted + 1 },
        RowFate.Asked => this with { Asked = Asked + 1 },
        RowFate.Duplicate => this with { Duplicates = Duplicates + 1 },
        RowFate.Refused => this with { Refused = Refused + 1 },
        RowFate.Blank => this with { Blank = Blank + 1 },
    };
}
