using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class PlaceImports : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "name",
                table: "invitations",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.CreateTable(
                name: "place_imports",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    file_name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    holds = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    sent_by = table.Column<Guid>(type: "uuid", nullable: false),
                    sent_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    state = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    columns = table.Column<string>(type: "character varying(20000)", maxLength: 20000, nullable: false),
                    added = table.Column<int>(type: "integer", nullable: false),
                    changed = table.Column<int>(type: "integer", nullable: false),
                    unchanged = table.Column<int>(type: "integer", nullable: false),
                    refused = table.Column<int>(type: "integer", nullable: false),
                    stored_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    stored_by = table.Column<Guid>(type: "uuid", nullable: true),
                    undone_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    undone_by = table.Column<Guid>(type: "uuid", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_place_imports", x => x.id);
                    table.ForeignKey(
                        name: "fk_place_imports_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "place_import_lines",
                columns: table => new
                {
                    import_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    row = table.Column<int>(type: "integer", nullable: false),
                    thing = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    thing_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    added = table.Column<bool>(type: "boolean", nullable: false),
                    fields = table.Column<string>(type: "character varying(20000)", maxLength: 20000, nullable: false),
                    stayed = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_place_import_lines", x => new { x.import_id, x.number });
                    table.ForeignKey(
                        name: "fk_place_import_lines_place_imports_import_id",
                        column: x => x.import_id,
                        principalTable: "place_imports",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "place_import_sheets",
                columns: table => new
                {
                    import_id = table.Column<Guid>(type: "uuid", nullable: false),
                    content = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_place_import_sheets", x => x.import_id);
                    table.ForeignKey(
                        name: "fk_place_import_sheets_place_imports_import_id",
                        column: x => x.import_id,
                        principalTable: "place_imports",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_place_imports_programme_id_sent_at",
                table: "place_imports",
                columns: new[] { "programme_id", "sent_at" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "place_import_lines");

            migrationBuilder.DropTable(
                name: "place_import_sheets");

            migrationBuilder.DropTable(
                name: "place_imports");

            migrationBuilder.DropColumn(
                name: "name",
                table: "invitations");
        }
    }
}
