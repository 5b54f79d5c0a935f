using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class MorningRound : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_flags_tanks_tank_id",
                table: "flags");

            migrationBuilder.AddColumn<string>(
                name: "test_kit_batch",
                table: "tanks",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "first_at",
                table: "tank_days",
                type: "TEXT",
                nullable: false,
                defaultValue: new DateTime(1, 1, 1, 0, 0, 0, 0, DateTimeKind.Unspecified));

            migrationBuilder.AddColumn<DateTime>(
                name: "last_at",
                table: "tank_days",
                type: "TEXT",
                nullable: false,
                defaultValue: new DateTime(1, 1, 1, 0, 0, 0, 0, DateTimeKind.Unspecified));

            migrationBuilder.AddColumn<double>(
                name: "squared_gap_hours",
                table: "tank_days",
                type: "REAL",
                nullable: false,
                defaultValue: 0.0);

            migrationBuilder.AddColumn<double>(
                name: "latitude",
                table: "schools",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "longitude",
                table: "schools",
                type: "REAL",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "water_supply",
                table: "schools",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "reported_at",
                table: "releases",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "reported_by",
                table: "releases",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<TimeOnly>(
                name: "digest_at",
                table: "programmes",
                type: "TEXT",
                nullable: false,
                defaultValue: new TimeOnly(6, 30, 0));

            migrationBuilder.AddColumn<TimeOnly>(
                name: "quiet_from",
                table: "people",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<TimeOnly>(
                name: "quiet_to",
                table: "people",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "wants_digest",
                table: "people",
                type: "INTEGER",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AddColumn<bool>(
                name: "wants_urgent",
                table: "people",
                type: "INTEGER",
                nullable: false,
                defaultValue: true);

            migrationBuilder.AlterColumn<Guid>(
                name: "tank_id",
                table: "flags",
                type: "TEXT",
                nullable: true,
                oldClrType: typeof(Guid),
                oldType: "TEXT");

            migrationBuilder.AddColumn<string>(
                name: "cause_by",
                table: "flags",
                type: "TEXT",
                maxLength: 32,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "cause_code",
                table: "flags",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "promise_due",
                table: "flags",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "promise_fell_due",
                table: "flags",
                type: "INTEGER",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<DateTime>(
                name: "wait_until",
                table: "flags",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "cause",
                table: "flag_events",
                type: "TEXT",
                maxLength: 32,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "rule_version",
                table: "flag_events",
                type: "TEXT",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "to",
                table: "flag_events",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "until",
                table: "flag_events",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "delivery_on",
                table: "allotments",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "area_sweeps",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    area = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    reason = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    from = table.Column<DateTime>(type: "TEXT", nullable: false),
                    until = table.Column<DateTime>(type: "TEXT", nullable: true),
                    note = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    marked_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    marked_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ended_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    ended_by = table.Column<Guid>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_area_sweeps", x => x.id);
                    table.ForeignKey(
                        name: "fk_area_sweeps_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "drafts",
                columns: table => new
                {
                    person_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    key = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    text = table.Column<string>(type: "TEXT", maxLength: 4000, nullable: false),
                    at = table.Column<DateTime>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_drafts", x => new { x.person_id, x.key });
                    table.ForeignKey(
                        name: "fk_drafts_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "kit_items",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    serial = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    make = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    condition = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    in_tank_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    school_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    place = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    holder = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    holder_phone = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    hours = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    latitude = table.Column<double>(type: "REAL", nullable: true),
                    longitude = table.Column<double>(type: "REAL", nullable: true),
                    most_litres = table.Column<double>(type: "REAL", nullable: true),
                    reserved_for_tank_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    reserved_by = table.Column<Guid>(type: "TEXT", nullable: true),
                    reserved_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_kit_items", x => x.id);
                    table.ForeignKey(
                        name: "fk_kit_items_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_kit_items_schools_school_id",
                        column: x => x.school_id,
                        principalTable: "schools",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_kit_items_tanks_in_tank_id",
                        column: x => x.in_tank_id,
                        principalTable: "tanks",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_kit_items_tanks_reserved_for_tank_id",
                        column: x => x.reserved_for_tank_id,
                        principalTable: "tanks",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "outgoing_letters",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    key = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    to = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    subject = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    text = table.Column<string>(type: "TEXT", maxLength: 40000, nullable: false),
                    written_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    not_before = table.Column<DateTime>(type: "TEXT", nullable: false),
                    state = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    held_until = table.Column<DateTime>(type: "TEXT", nullable: true),
                    sent_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    trouble = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outgoing_letters", x => x.id);
                    table.ForeignKey(
                        name: "fk_outgoing_letters_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "rehearsals",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    seed = table.Column<int>(type: "INTEGER", nullable: false),
                    started_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    worked_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    started_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    called = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    finished_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_rehearsals", x => x.id);
                    table.ForeignKey(
                        name: "fk_rehearsals_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "sweep_replies",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sweep_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    school_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    person_id = table.Column<Guid>(type: "TEXT", nullable: true),
                    secret_hash = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    asked_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    answered_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    answer = table.Column<string>(type: "TEXT", maxLength: 32, nullable: true),
                    note = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sweep_replies", x => x.id);
                    table.ForeignKey(
                        name: "fk_sweep_replies_area_sweeps_sweep_id",
                        column: x => x.sweep_id,
                        principalTable: "area_sweeps",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_sweep_replies_schools_school_id",
                        column: x => x.school_id,
                        principalTable: "schools",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_flags_one_open_cause",
                table: "flags",
                columns: new[] { "programme_id", "cause_by", "cause_code" },
                unique: true,
                filter: "state = 'Open' AND cause_by IS NOT NULL");

            migrationBuilder.CreateIndex(
                name: "ix_area_sweeps_programme_id_ended_at",
                table: "area_sweeps",
                columns: new[] { "programme_id", "ended_at" });

            migrationBuilder.CreateIndex(
                name: "ix_kit_items_in_tank_id",
                table: "kit_items",
                column: "in_tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_kit_items_programme_id_serial",
                table: "kit_items",
                columns: new[] { "programme_id", "serial" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_kit_items_reserved_for_tank_id",
                table: "kit_items",
                column: "reserved_for_tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_kit_items_school_id",
                table: "kit_items",
                column: "school_id");

            migrationBuilder.CreateIndex(
                name: "ix_outgoing_letters_key",
                table: "outgoing_letters",
                column: "key",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_outgoing_letters_programme_id",
                table: "outgoing_letters",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_outgoing_letters_state_not_before",
                table: "outgoing_letters",
                columns: new[] { "state", "not_before" });

            migrationBuilder.CreateIndex(
                name: "ix_rehearsals_programme_id_started_at",
                table: "rehearsals",
                columns: new[] { "programme_id", "started_at" });

            migrationBuilder.CreateIndex(
                name: "ix_sweep_replies_school_id",
                table: "sweep_replies",
                column: "school_id");

            migrationBuilder.CreateIndex(
                name: "ix_sweep_replies_secret_hash",
                table: "sweep_replies",
                column: "secret_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_sweep_replies_sweep_id",
                table: "sweep_replies",
                column: "sweep_id");

            migrationBuilder.AddForeignKey(
                name: "fk_flags_tanks_tank_id",
                table: "flags",
                column: "tank_id",
                principalTable: "tanks",
                principalColumn: "id");

            // The day summaries written before know nothing of when the readings were: the next judging folds every day again.
            migrationBuilder.Sql("INSERT INTO unjudged_facts (tank_id, at) SELECT tank_id, at FROM readings WHERE state = 'Accepted' AND corrected_by IS NULL");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            // The older schema cannot hold a flag without a tank.
            migrationBuilder.Sql("DELETE FROM flags WHERE tank_id IS NULL");

            migrationBuilder.DropForeignKey(
                name: "fk_flags_tanks_tank_id",
                table: "flags");

            migrationBuilder.DropTable(
                name: "drafts");

            migrationBuilder.DropTable(
                name: "kit_items");

            migrationBuilder.DropTable(
                name: "outgoing_letters");

            migrationBuilder.DropTable(
                name: "rehearsals");

            migrationBuilder.DropTable(
                name: "sweep_replies");

            migrationBuilder.DropTable(
                name: "area_sweeps");

            migrationBuilder.DropIndex(
                name: "ix_flags_one_open_cause",
                table: "flags");

            migrationBuilder.DropColumn(
                name: "test_kit_batch",
                table: "tanks");

            migrationBuilder.DropColumn(
                name: "first_at",
                table: "tank_days");

            migrationBuilder.DropColumn(
                name: "last_at",
                table: "tank_days");

            migrationBuilder.DropColumn(
                name: "squared_gap_hours",
                table: "tank_days");

            migrationBuilder.DropColumn(
                name: "latitude",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "longitude",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "water_supply",
                table: "schools");

            migrationBuilder.DropColumn(
                name: "reported_at",
                table: "releases");

            migrationBuilder.DropColumn(
                name: "reported_by",
                table: "releases");

            migrationBuilder.DropColumn(
                name: "digest_at",
                table: "programmes");

            migrationBuilder.DropColumn(
                name: "quiet_from",
                table: "people");

            migrationBuilder.DropColumn(
                name: "quiet_to",
                table: "people");

            migrationBuilder.DropColumn(
                name: "wants_digest",
                table: "people");

            migrationBuilder.DropColumn(
                name: "wants_urgent",
                table: "people");

            migrationBuilder.DropColumn(
                name: "cause_by",
                table: "flags");

            migrationBuilder.DropColumn(
                name: "cause_code",
                table: "flags");

            migrationBuilder.DropColumn(
                name: "promise_due",
                table: "flags");

            migrationBuilder.DropColumn(
                name: "promise_fell_due",
                table: "flags");

            migrationBuilder.DropColumn(
                name: "wait_until",
                table: "flags");

            migrationBuilder.DropColumn(
                name: "cause",
                table: "flag_events");

            migrationBuilder.DropColumn(
                name: "rule_version",
                table: "flag_events");

            migrationBuilder.DropColumn(
                name: "to",
                table: "flag_events");

            migrationBuilder.DropColumn(
                name: "until",
                table: "flag_events");

            migrationBuilder.DropColumn(
                name: "delivery_on",
                table: "allotments");

            migrationBuilder.AlterColumn<Guid>(
                name: "tank_id",
                table: "flags",
                type: "TEXT",
                nullable: false,
                defaultValue: new Guid("00000000-0000-0000-0000-000000000000"),
                oldClrType: typeof(Guid),
                oldType: "TEXT",
                oldNullable: true);

            migrationBuilder.AddForeignKey(
                name: "fk_flags_tanks_tank_id",
                table: "flags",
                column: "tank_id",
                principalTable: "tanks",
                principalColumn: "id",
                onDelete: ReferentialAction.Cascade);
        }
    }
}
