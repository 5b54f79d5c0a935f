using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class ClassDoors : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<bool>(
                name: "feels_warm",
                table: "readings",
                type: "boolean",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "import_id",
                table: "readings",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "water_on_floor",
                table: "readings",
                type: "boolean",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "reading_imports",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    file_name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    sent_by = table.Column<Guid>(type: "uuid", nullable: false),
                    sent_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    state = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    columns = table.Column<string>(type: "character varying(8000)", maxLength: 8000, nullable: false),
                    rows = table.Column<int>(type: "integer", nullable: false),
                    handled = table.Column<int>(type: "integer", nullable: false),
                    accepted = table.Column<int>(type: "integer", nullable: false),
                    asked = table.Column<int>(type: "integer", nullable: false),
                    duplicates = table.Column<int>(type: "integer", nullable: false),
                    refused = table.Column<int>(type: "integer", nullable: false),
                    blank = table.Column<int>(type: "integer", nullable: false),
                    finished_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    undone_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    undone_by = table.Column<Guid>(type: "uuid", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_reading_imports", x => x.id);
                    table.ForeignKey(
                        name: "fk_reading_imports_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "tank_photos",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    shows = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    received_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    sent_by = table.Column<Guid>(type: "uuid", nullable: false),
                    note = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: true),
                    width = table.Column<int>(type: "integer", nullable: false),
                    height = table.Column<int>(type: "integer", nullable: false),
                    content = table.Column<byte[]>(type: "bytea", nullable: false),
                    removed_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    removed_by = table.Column<Guid>(type: "uuid", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tank_photos", x => x.id);
                    table.ForeignKey(
                        name: "fk_tank_photos_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "imported_sheets",
                columns: table => new
                {
                    import_id = table.Column<Guid>(type: "uuid", nullable: false),
                    content = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_imported_sheets", x => x.import_id);
                    table.ForeignKey(
                        name: "fk_imported_sheets_reading_imports_import_id",
                        column: x => x.import_id,
                        principalTable: "reading_imports",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_readings_import_id",
                table: "readings",
                column: "import_id");

            migrationBuilder.CreateIndex(
                name: "ix_reading_imports_programme_id_sent_at",
                table: "reading_imports",
                columns: new[] { "programme_id", "sent_at" });

            migrationBuilder.CreateIndex(
                name: "ix_tank_photos_tank_id_received_at",
                table: "tank_photos",
                columns: new[] { "tank_id", "received_at" });

            migrationBuilder.AddForeignKey(
                name: "fk_readings_reading_imports_import_id",
                table: "readings",
                column: "import_id",
                principalTable: "reading_imports",
                principalColumn: "id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropForeignKey(
                name: "fk_readings_reading_imports_import_id",
                table: "readings");

            migrationBuilder.DropTable(
                name: "imported_sheets");

            migrationBuilder.DropTable(
                name: "tank_photos");

            migrationBuilder.DropTable(
                name: "reading_imports");

            migrationBuilder.DropIndex(
                name: "ix_readings_import_id",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "feels_warm",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "import_id",
                table: "readings");

            migrationBuilder.DropColumn(
                name: "water_on_floor",
                table: "readings");
        }
    }
}
