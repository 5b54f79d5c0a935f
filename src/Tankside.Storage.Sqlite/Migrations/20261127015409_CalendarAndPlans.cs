using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class CalendarAndPlans : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "calendar_feeds",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    school_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    secret_hash = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    issued_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    issued_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    revoked_at = table.Column<DateTime>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_calendar_feeds", x => x.id);
                    table.ForeignKey(
                        name: "fk_calendar_feeds_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_calendar_feeds_schools_school_id",
                        column: x => x.school_id,
                        principalTable: "schools",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_calendar_feeds_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "set_point_plans",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    made_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    made_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    goal = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    goal_day = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    steps = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    ended_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    ended_by = table.Column<Guid>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_set_point_plans", x => x.id);
                    table.ForeignKey(
                        name: "fk_set_point_plans_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_calendar_feeds_programme_id",
                table: "calendar_feeds",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_calendar_feeds_school_id",
                table: "calendar_feeds",
                column: "school_id");

            migrationBuilder.CreateIndex(
                name: "ix_calendar_feeds_secret_hash",
                table: "calendar_feeds",
                column: "secret_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_calendar_feeds_tank_id",
                table: "calendar_feeds",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_set_point_plans_tank_id_made_at",
                table: "set_point_plans",
                columns: new[] { "tank_id", "made_at" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "calendar_feeds");

            migrationBuilder.DropTable(
                name: "set_point_plans");
        }
    }
}
