using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class OwnWordsAndRunningState : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "day_facts",
                columns: table => new
                {
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    day = table.Column<DateOnly>(type: "date", nullable: false),
                    packed = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_day_facts", x => new { x.tank_id, x.day });
                    table.ForeignKey(
                        name: "fk_day_facts_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "own_texts",
                columns: table => new
                {
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    key = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    en = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: false),
                    es = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_own_texts", x => new { x.programme_id, x.key });
                    table.ForeignKey(
                        name: "fk_own_texts_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            // The days that the rules look back on are folded again by the judge; of a UTC day the first reading and the last lie on
            // whatever local days it has part in.
            migrationBuilder.Sql(
                "INSERT INTO unjudged_facts (tank_id, at) "
                + "SELECT tank_id, min(at) FROM readings WHERE state = 'Accepted' AND corrected_by IS NULL AND at >= now() - interval '25 days' GROUP BY tank_id, date_trunc('day', at, 'UTC') "
                + "UNION SELECT tank_id, max(at) FROM readings WHERE state = 'Accepted' AND corrected_by IS NULL AND at >= now() - interval '25 days' GROUP BY tank_id, date_trunc('day', at, 'UTC') "
                + "EXCEPT SELECT tank_id, at FROM unjudged_facts");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "day_facts");

            migrationBuilder.DropTable(
                name: "own_texts");
        }
    }
}
