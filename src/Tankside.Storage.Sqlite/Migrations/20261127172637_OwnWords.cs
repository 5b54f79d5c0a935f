using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class OwnWords : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "own_texts",
                columns: table => new
                {
                    programme_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    key = table.Column<string>(type: "TEXT", maxLength: 400, nullable: false),
                    en = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    es = table.Column<string>(type: "TEXT", maxLength: 2000, nullable: false),
                    version = table.Column<int>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_own_texts", x => new { x.programme_id, x.key });
                    table.ForeignKey(
                        name: "fk_own_texts_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "own_texts");
        }
    }
}
