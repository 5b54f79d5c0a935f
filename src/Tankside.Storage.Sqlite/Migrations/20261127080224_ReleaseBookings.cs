using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class ReleaseBookings : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<Guid>(
                name: "booking_id",
                table: "releases",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "signed_as",
                table: "releases",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "signed_at",
                table: "releases",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "access",
                table: "release_sites",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "hazards",
                table: "release_sites",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "latitude",
                table: "release_sites",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "longitude",
                table: "release_sites",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "most_buses",
                table: "release_sites",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "most_visitors",
                table: "release_sites",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "conditions",
                table: "permits",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "document",
                table: "permits",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<int>(
                name: "hold_days",
                table: "permits",
                type: "INTEGER",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "holder",
                table: "permits",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "nil_reported_at",
                table: "permits",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "nil_reported_by",
                table: "permits",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "responsible_id",
                table: "permits",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "release_bookings",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    season_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    school_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_ids = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    visitors = table.Column<int>(type: "INTEGER", nullable: false),
                    buses = table.Column<int>(type: "INTEGER", nullable: false),
                    other_helpers = table.Column<int>(type: "INTEGER", nullable: false),
                    needs = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    state = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    site_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    on = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    part = table.Column<string>(type: "TEXT", maxLength: 32, nullable: true),
                    permit_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    agency_agrees = table.Column<bool>(type: "INTEGER", nullable: true),
                    agency_who = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    agency_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    ticked = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    asked_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    asked_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_release_bookings", x => x.id);
                    table.ForeignKey(
                        name: "fk_release_bookings_permits_permit_id",
                        column: x => x.permit_id,
                        principalTable: "permits",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_release_bookings_release_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "release_sites",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_release_bookings_schools_school_id",
                        column: x => x.school_id,
                        principalTable: "schools",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_release_bookings_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "booking_acts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    booking_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    by = table.Column<Guid>(type: "TEXT", nullable: false),
                    deed = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    note = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_booking_acts", x => x.id);
                    table.ForeignKey(
                        name: "fk_booking_acts_release_bookings_booking_id",
                        column: x => x.booking_id,
                        principalTable: "release_bookings",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "booking_choices",
                columns: table => new
                {
                    booking_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    rank = table.Column<int>(type: "INTEGER", nullable: false),
                    site_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    part = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_booking_choices", x => new { x.booking_id, x.rank });
                    table.ForeignKey(
                        name: "fk_booking_choices_release_bookings_booking_id",
                        column: x => x.booking_id,
                        principalTable: "release_bookings",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_booking_choices_release_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "release_sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "booking_holds",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    booking_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    on = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    part = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    held_id = table.Column<Guid>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_booking_holds", x => x.id);
                    table.ForeignKey(
                        name: "fk_booking_holds_release_bookings_booking_id",
                        column: x => x.booking_id,
                        principalTable: "release_bookings",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "tally_counts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    booking_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    tank_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    turn = table.Column<int>(type: "INTEGER", nullable: false),
                    seat = table.Column<int>(type: "INTEGER", nullable: false),
                    counter = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    fish = table.Column<int>(type: "INTEGER", nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    entered_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    stands_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    stands_by = table.Column<Guid>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tally_counts", x => x.id);
                    table.ForeignKey(
                        name: "fk_tally_counts_release_bookings_booking_id",
                        column: x => x.booking_id,
                        principalTable: "release_bookings",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_tally_counts_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_releases_booking_id",
                table: "releases",
                column: "booking_id");

            migrationBuilder.CreateIndex(
                name: "ix_booking_acts_booking_id",
                table: "booking_acts",
                column: "booking_id");

            migrationBuilder.CreateIndex(
                name: "ix_booking_choices_site_id",
                table: "booking_choices",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_booking_holds_booking_id",
                table: "booking_holds",
                column: "booking_id");

            migrationBuilder.CreateIndex(
                name: "ix_booking_holds_on_part_kind_held_id",
                table: "booking_holds",
                columns: new[] { "on", "part", "kind", "held_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_release_bookings_permit_id",
                table: "release_bookings",
                column: "permit_id");

            migrationBuilder.CreateIndex(
                name: "ix_release_bookings_school_id",
                table: "release_bookings",
                column: "school_id");

            migrationBuilder.CreateIndex(
                name: "ix_release_bookings_season_id",
                table: "release_bookings",
                column: "season_id");

            migrationBuilder.CreateIndex(
                name: "ix_release_bookings_site_id",
                table: "release_bookings",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_tally_counts_booking_id_tank_id_turn_seat",
                table: "tally_counts",
                columns: new[] { "booking_id", "tank_id", "turn", "seat" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_tally_counts_tank_id",
                table: "tally_counts",
                column: "tank_id");

            migrationBuilder.AddForeignKey(
                name: "fk_releases_release_bookings_booking_id",
                table: "releases",
                column: "booking_id",
                principalTable: "release_bookings",
                principalColumn: "id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            // SQLite builds the releases anew only after the bookings are gone: until then none may point to one.
            migrationBuilder.Sql("UPDATE releases SET booking_id = NULL;");

            migrationBuilder.DropForeignKey(
                name: "fk_releases_release_bookings_booking_id",
                table: "releases");

            migrationBuilder.DropTable(
                name: "booking_acts");

            migrationBuilder.DropTable(
                name: "booking_choices");

            migrationBuilder.DropTable(
                name: "booking_holds");

            migrationBuilder.DropTable(
                name: "tally_counts");

            migrationBuilder.DropTable(
                name: "release_bookings");

            migrationBuilder.DropIndex(
                name: "ix_releases_booking_id",
                table: "releases");

            migrationBuilder.DropColumn(
                name: "booking_id",
                table: "releases");

            migrationBuilder.DropColumn(
                name: "signed_as",
                table: "releases");

            migrationBuilder.DropColumn(
                name: "signed_at",
                table: "releases");

            migrationBuilder.DropColumn(
                name: "access",
                table: "release_sites");

            migrationBuilder.DropColumn(
                name: "hazards",
                table: "release_sites");

            migrationBuilder.DropColumn(
                name: "latitude",
                table: "release_sites");

            migrationBuilder.DropColumn(
                name: "longitude",
                table: "release_sites");

            migrationBuilder.DropColumn(
                name: "most_buses",
                table: "release_sites");

            migrationBuilder.DropColumn(
                name: "most_visitors",
                table: "release_sites");

            migrationBuilder.DropColumn(
                name: "conditions",
                table: "permits");

            migrationBuilder.DropColumn(
                name: "document",
                table: "permits");

            migrationBuilder.DropColumn(
                name: "hold_days",
                table: "permits");

            migrationBuilder.DropColumn(
                name: "holder",
                table: "permits");

            migrationBuilder.DropColumn(
                name: "nil_reported_at",
                table: "permits");

            migrationBuilder.DropColumn(
                name: "nil_reported_by",
                table: "permits");

            migrationBuilder.DropColumn(
                name: "responsible_id",
                table: "permits");
        }
    }
}
