using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class PeopleAndMessages : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "for_another",
                table: "set_up_links",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<bool>(
                name: "without_announcements",
                table: "people",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<bool>(
                name: "without_reminders",
                table: "people",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<Guid>(
                name: "works_in",
                table: "people",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "check_kind",
                table: "memberships",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateOnly>(
                name: "checked_until",
                table: "memberships",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "backup_name",
                table: "classrooms",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "backup_phone",
                table: "classrooms",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<DateTime>(
                name: "last_used_at",
                table: "api_keys",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "name",
                table: "api_keys",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "announcements",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    audience = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    @for = table.Column<string>(name: "for", type: "character varying(2000)", maxLength: 2000, nullable: false),
                    subject_en = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    text_en = table.Column<string>(type: "character varying(8000)", maxLength: 8000, nullable: false),
                    subject_es = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    text_es = table.Column<string>(type: "character varying(8000)", maxLength: 8000, nullable: false),
                    written_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    written_by = table.Column<Guid>(type: "uuid", nullable: false),
                    goes_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    taken_back_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    taken_back_by = table.Column<Guid>(type: "uuid", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_announcements", x => x.id);
                    table.ForeignKey(
                        name: "fk_announcements_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "news_seen",
                columns: table => new
                {
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_news_seen", x => new { x.person_id, x.programme_id });
                    table.ForeignKey(
                        name: "fk_news_seen_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_news_seen_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "own_templates",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    shipped = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    subject_en = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    text_en = table.Column<string>(type: "character varying(8000)", maxLength: 8000, nullable: false),
                    subject_es = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    text_es = table.Column<string>(type: "character varying(8000)", maxLength: 8000, nullable: false),
                    changed_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    changed_by = table.Column<Guid>(type: "uuid", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_own_templates", x => x.id);
                    table.ForeignKey(
                        name: "fk_own_templates_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "refused_addresses",
                columns: table => new
                {
                    address = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    since = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    code = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_refused_addresses", x => x.address);
                });

            migrationBuilder.CreateTable(
                name: "user_passkeys",
                columns: table => new
                {
                    credential_id = table.Column<byte[]>(type: "bytea", maxLength: 1024, nullable: false),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    last_used_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    data = table.Column<string>(type: "jsonb", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_user_passkeys", x => x.credential_id);
                    table.ForeignKey(
                        name: "fk_user_passkeys_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "announcement_readers",
                columns: table => new
                {
                    announcement_id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    without = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_announcement_readers", x => new { x.announcement_id, x.person_id });
                    table.ForeignKey(
                        name: "fk_announcement_readers_announcements_announcement_id",
                        column: x => x.announcement_id,
                        principalTable: "announcements",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_announcement_readers_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_announcement_readers_person_id",
                table: "announcement_readers",
                column: "person_id");

            migrationBuilder.CreateIndex(
                name: "ix_announcements_programme_id_written_at",
                table: "announcements",
                columns: new[] { "programme_id", "written_at" });

            migrationBuilder.CreateIndex(
                name: "ix_news_seen_programme_id",
                table: "news_seen",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_own_templates_programme_id_name",
                table: "own_templates",
                columns: new[] { "programme_id", "name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_own_templates_programme_id_shipped",
                table: "own_templates",
                columns: new[] { "programme_id", "shipped" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_user_passkeys_user_id",
                table: "user_passkeys",
                column: "user_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "announcement_readers");

            migrationBuilder.DropTable(
                name: "news_seen");

            migrationBuilder.DropTable(
                name: "own_templates");

            migrationBuilder.DropTable(
                name: "refused_addresses");

            migrationBuilder.DropTable(
                name: "user_passkeys");

            migrationBuilder.DropTable(
                name: "announcements");

            migrationBuilder.DropColumn(
                name: "for_another",
                table: "set_up_links");

            migrationBuilder.DropColumn(
                name: "without_announcements",
                table: "people");

            migrationBuilder.DropColumn(
                name: "without_reminders",
                table: "people");

            migrationBuilder.DropColumn(
                name: "works_in",
                table: "people");

            migrationBuilder.DropColumn(
                name: "check_kind",
                table: "memberships");

            migrationBuilder.DropColumn(
                name: "checked_until",
                table: "memberships");

            migrationBuilder.DropColumn(
                name: "backup_name",
                table: "classrooms");

            migrationBuilder.DropColumn(
                name: "backup_phone",
                table: "classrooms");

            migrationBuilder.DropColumn(
                name: "last_used_at",
                table: "api_keys");

            migrationBuilder.DropColumn(
                name: "name",
                table: "api_keys");
        }
    }
}
