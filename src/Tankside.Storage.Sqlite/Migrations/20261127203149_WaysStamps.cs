using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class WaysStamps : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "ways_stamps",
                columns: table => new
                {
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    stamp = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ways_stamps", x => x.programme_id);
                });

            foreach (var table in new[] { "closures", "settings", "own_texts", "area_sweeps" })
            {
                foreach (var (change, row) in new[] { ("insert", "NEW"), ("update", "NEW"), ("delete", "OLD") })
                {
                    migrationBuilder.Sql(
                        $"CREATE TRIGGER stamp_ways_{table}_{change} AFTER {change} ON {table} BEGIN "
                        + $"INSERT INTO ways_stamps (programme_id, stamp) VALUES ({row}.programme_id, random()) ON CONFLICT (programme_id) DO UPDATE SET stamp = excluded.stamp; END");
                }
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            foreach (var table in new[] { "closures", "settings", "own_texts", "area_sweeps" })
            {
                foreach (var change in new[] { "insert", "update", "delete" })
                {
                    migrationBuilder.Sql($"DROP TRIGGER stamp_ways_{table}_{change}");
                }
            }

            migrationBuilder.DropTable(
                name: "ways_stamps");
        }
    }
}
