using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class SignIns : Migration
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

            migrationBuilder.CreateIndex(
                name: "ix_user_passkeys_user_id",
                table: "user_passkeys",
                column: "user_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "user_passkeys");

            migrationBuilder.DropColumn(
                name: "for_another",
                table: "set_up_links");

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
