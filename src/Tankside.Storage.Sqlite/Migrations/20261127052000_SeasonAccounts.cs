using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SeasonAccounts : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "report_columns",
                columns: table => new
                {
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    text = table.Column<string>(type: "TEXT", maxLength: 8000, nullable: false),
                    changed_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    changed_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_report_columns", x => x.programme_id);
                    table.ForeignKey(
                        name: "fk_report_columns_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "season_seals",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    season_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    sealed_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    sealed_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    checksum = table.Column<string>(type: "TEXT", maxLength: 64, nullable: false),
                    account = table.Column<byte[]>(type: "BLOB", nullable: false),
                    reopened_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    reopened_by = table.Column<Guid>(type: "TEXT", nullable: true),
                    reopened_because = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_season_seals", x => x.id);
                    table.ForeignKey(
                        name: "fk_season_seals_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_season_seals_season_id",
                table: "season_seals",
                column: "season_id",
                unique: true,
                filter: "reopened_at IS NULL");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "report_columns");

            migrationBuilder.DropTable(
                name: "season_seals");
        }
    }
}
