using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class DeliveryRuns : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "received_by",
                table: "receipts",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "stop_id",
                table: "receipts",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "tempered_minutes",
                table: "receipts",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "delivery_runs",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    season_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    detour = table.Column<double>(type: "REAL", nullable: false),
                    km_per_hour = table.Column<double>(type: "REAL", nullable: false),
                    longest_out = table.Column<int>(type: "INTEGER", nullable: false),
                    talk_minutes = table.Column<int>(type: "INTEGER", nullable: false),
                    drop_minutes = table.Column<int>(type: "INTEGER", nullable: false),
                    plan = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    turn = table.Column<int>(type: "INTEGER", nullable: false),
                    planned_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    planning_since = table.Column<DateTime>(type: "TEXT", nullable: true),
                    planning_until = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_delivery_runs", x => x.id);
                    table.ForeignKey(
                        name: "fk_delivery_runs_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_delivery_runs_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "run_places",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    latitude = table.Column<double>(type: "REAL", nullable: false),
                    longitude = table.Column<double>(type: "REAL", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_run_places", x => x.id);
                    table.ForeignKey(
                        name: "fk_run_places_delivery_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "delivery_runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "run_stops",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    lot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    eggs = table.Column<int>(type: "INTEGER", nullable: false),
                    visit = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    not_before = table.Column<TimeOnly>(type: "TEXT", nullable: true),
                    not_after = table.Column<TimeOnly>(type: "TEXT", nullable: true),
                    to_holding = table.Column<bool>(type: "INTEGER", nullable: false),
                    pinned_driver_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    pinned_place = table.Column<int>(type: "INTEGER", nullable: true),
                    out_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    driver_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    place = table.Column<int>(type: "INTEGER", nullable: true),
                    begins = table.Column<TimeOnly>(type: "TEXT", nullable: true),
                    ends = table.Column<TimeOnly>(type: "TEXT", nullable: true),
                    dropped = table.Column<string>(type: "TEXT", maxLength: 32, nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_run_stops", x => x.id);
                    table.ForeignKey(
                        name: "fk_run_stops_delivery_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "delivery_runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_run_stops_egg_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "egg_lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_run_stops_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "run_drivers",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    number = table.Column<int>(type: "INTEGER", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    phone = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    depot_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    eggs = table.Column<int>(type: "INTEGER", nullable: false),
                    from = table.Column<TimeOnly>(type: "TEXT", nullable: false),
                    until = table.Column<TimeOnly>(type: "TEXT", nullable: false),
                    code = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    out_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    leaves = table.Column<TimeOnly>(type: "TEXT", nullable: true),
                    back = table.Column<TimeOnly>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_run_drivers", x => x.id);
                    table.ForeignKey(
                        name: "fk_run_drivers_delivery_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "delivery_runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_run_drivers_run_places_depot_id",
                        column: x => x.depot_id,
                        principalTable: "run_places",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "run_ticks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    run_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    stop_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    driver_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    deed = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    received_at = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_run_ticks", x => x.id);
                    table.ForeignKey(
                        name: "fk_run_ticks_delivery_runs_run_id",
                        column: x => x.run_id,
                        principalTable: "delivery_runs",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_run_ticks_run_stops_stop_id",
                        column: x => x.stop_id,
                        principalTable: "run_stops",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_receipts_stop_id",
                table: "receipts",
                column: "stop_id",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_delivery_runs_programme_id",
                table: "delivery_runs",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_delivery_runs_season_id_name",
                table: "delivery_runs",
                columns: new[] { "season_id", "name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_run_drivers_code",
                table: "run_drivers",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_run_drivers_depot_id",
                table: "run_drivers",
                column: "depot_id");

            migrationBuilder.CreateIndex(
                name: "ix_run_drivers_run_id_number",
                table: "run_drivers",
                columns: new[] { "run_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_run_places_run_id",
                table: "run_places",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_run_stops_lot_id",
                table: "run_stops",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_run_stops_run_id_tank_id",
                table: "run_stops",
                columns: new[] { "run_id", "tank_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_run_stops_tank_id",
                table: "run_stops",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_run_ticks_run_id",
                table: "run_ticks",
                column: "run_id");

            migrationBuilder.CreateIndex(
                name: "ix_run_ticks_stop_id",
                table: "run_ticks",
                column: "stop_id");

            migrationBuilder.AddForeignKey(
                name: "fk_receipts_run_stops_stop_id",
                table: "receipts",
                column: "stop_id",
                principalTable: "run_stops",
                principalColumn: "id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            // SQLite builds the receipts anew only after the stops are gone: until then none may point to one.
            migrationBuilder.Sql("UPDATE receipts SET stop_id = NULL;");

            migrationBuilder.DropForeignKey(
                name: "fk_receipts_run_stops_stop_id",
                table: "receipts");

            migrationBuilder.DropTable(
                name: "run_drivers");

            migrationBuilder.DropTable(
                name: "run_ticks");

            migrationBuilder.DropTable(
                name: "run_places");

            migrationBuilder.DropTable(
                name: "run_stops");

            migrationBuilder.DropTable(
                name: "delivery_runs");

            migrationBuilder.DropIndex(
                name: "ix_receipts_stop_id",
                table: "receipts");

            migrationBuilder.DropColumn(
                name: "received_by",
                table: "receipts");

            migrationBuilder.DropColumn(
                name: "stop_id",
                table: "receipts");

            migrationBuilder.DropColumn(
                name: "tempered_minutes",
                table: "receipts");
        }
    }
}
