using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class LotsAndReadiness : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            // A tank has one open plan from now on: where two were kept in the same moment, the older ends.
            migrationBuilder.Sql(
                "UPDATE set_point_plans SET ended_at = made_at WHERE ended_at IS NULL AND EXISTS (SELECT 1 FROM set_point_plans AS newer "
                + "WHERE newer.tank_id = set_point_plans.tank_id AND newer.ended_at IS NULL AND (newer.made_at > set_point_plans.made_at "
                + "OR (newer.made_at = set_point_plans.made_at AND newer.id > set_point_plans.id)))");

            migrationBuilder.AddColumn<string>(
                name: "daily_c",
                table: "egg_lots",
                type: "TEXT",
                maxLength: 3000,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "disinfection",
                table: "egg_lots",
                type: "TEXT",
                maxLength: 300,
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "eyed_on",
                table: "egg_lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "health_certificate",
                table: "egg_lots",
                type: "TEXT",
                maxLength: 200,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "known_by",
                table: "egg_lots",
                type: "TEXT",
                maxLength: 32,
                nullable: false,
                defaultValue: "MeanTemperature");

            migrationBuilder.AddColumn<string>(
                name: "note",
                table: "egg_lots",
                type: "TEXT",
                maxLength: 2000,
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "picked_on",
                table: "egg_lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "shocked_on",
                table: "egg_lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "units_c",
                table: "egg_lots",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "units_on",
                table: "egg_lots",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "units_typed",
                table: "egg_lots",
                type: "TEXT",
                maxLength: 100,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "allotment_changes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    season_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_before = table.Column<Guid>(type: "TEXT", nullable: true),
                    lot_after = table.Column<Guid>(type: "TEXT", nullable: true),
                    eggs_before = table.Column<int>(type: "INTEGER", nullable: false),
                    eggs_after = table.Column<int>(type: "INTEGER", nullable: false),
                    day_before = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    day_after = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    by = table.Column<Guid>(type: "TEXT", nullable: false),
                    why = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_allotment_changes", x => x.id);
                    table.ForeignKey(
                        name: "fk_allotment_changes_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_allotment_changes_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "own_stage_tables",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    species = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    stage = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    points = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    source = table.Column<string>(type: "TEXT", maxLength: 500, nullable: false),
                    entered_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    entered_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_own_stage_tables", x => x.id);
                    table.ForeignKey(
                        name: "fk_own_stage_tables_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ready_checks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    season_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    by = table.Column<Guid>(type: "TEXT", nullable: false),
                    coil_down = table.Column<bool>(type: "INTEGER", nullable: false),
                    probe_in_water = table.Column<bool>(type: "INTEGER", nullable: false),
                    tubes_free = table.Column<bool>(type: "INTEGER", nullable: false),
                    filter_covered = table.Column<bool>(type: "INTEGER", nullable: false),
                    gravel_clean = table.Column<bool>(type: "INTEGER", nullable: false),
                    water_safe = table.Column<bool>(type: "INTEGER", nullable: false),
                    note = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ready_checks", x => x.id);
                    table.ForeignKey(
                        name: "fk_ready_checks_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_ready_checks_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ready_overrides",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    season_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    by = table.Column<Guid>(type: "TEXT", nullable: false),
                    signed_as = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                    reason = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    withdrawn_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ready_overrides", x => x.id);
                    table.ForeignKey(
                        name: "fk_ready_overrides_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_ready_overrides_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_set_point_plans_one_open",
                table: "set_point_plans",
                column: "tank_id",
                unique: true,
                filter: "ended_at IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_allotment_changes_season_id_at",
                table: "allotment_changes",
                columns: new[] { "season_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_allotment_changes_tank_id",
                table: "allotment_changes",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_own_stage_tables_programme_id_species_stage",
                table: "own_stage_tables",
                columns: new[] { "programme_id", "species", "stage" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_ready_checks_season_id",
                table: "ready_checks",
                column: "season_id");

            migrationBuilder.CreateIndex(
                name: "ix_ready_checks_tank_id_at",
                table: "ready_checks",
                columns: new[] { "tank_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_ready_overrides_one_open",
                table: "ready_overrides",
                columns: new[] { "season_id", "tank_id" },
                unique: true,
                filter: "withdrawn_at IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_ready_overrides_tank_id",
                table: "ready_overrides",
                column: "tank_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "allotment_changes");

            migrationBuilder.DropTable(
                name: "own_stage_tables");

            migrationBuilder.DropTable(
                name: "ready_checks");

            migrationBuilder.DropTable(
                name: "ready_overrides");

            migrationBuilder.DropIndex(
                name: "ix_set_point_plans_one_open",
                table: "set_point_plans");

            migrationBuilder.DropColumn(
                name: "daily_c",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "disinfection",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "eyed_on",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "health_certificate",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "known_by",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "note",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "picked_on",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "shocked_on",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "units_c",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "units_on",
                table: "egg_lots");

            migrationBuilder.DropColumn(
                name: "units_typed",
                table: "egg_lots");
        }
    }
}
