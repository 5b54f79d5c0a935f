using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SchoolNotes : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "bell_times",
                table: "schools",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<TimeOnly>(
                name: "deliver_by",
                table: "schools",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<TimeOnly>(
                name: "deliver_from",
                table: "schools",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "door_notes",
                table: "schools",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "water_notes",
                table: "schools",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "printed_at",
                table: "room_codes",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "season_tanks",
                columns: table => new
                {
                    season_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    school = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    room = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_season_tanks", x => new { x.season_id, x.tank_id });
                    table.ForeignKey(
                        name: "fk_season_tanks_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_season_tanks_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "taken_out_places",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    thing = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    name = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    content = table.Column<string>(type: "TEXT", maxLength: 200000, nullable: false),
                    taken_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    taken_by = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_taken_out_places", x => x.id);
                    table.ForeignKey(
                        name: "fk_taken_out_places_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_season_tanks_tank_id",
                table: "season_tanks",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_taken_out_places_programme_id_taken_at",
                table: "taken_out_places",
                columns: new[] { "programme_id", "taken_at" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "season_tanks");

            migrationBuilder.DropTable(
                name: "taken_out_places");

            migrationBuilder.DropColumn(
                name: "bell_times",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "deliver_by",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "deliver_from",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "door_notes",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "water_notes",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "printed_at",
                table: "room_codes");
        }
    }
}
