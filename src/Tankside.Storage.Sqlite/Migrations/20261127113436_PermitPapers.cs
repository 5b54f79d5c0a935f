using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class PermitPapers : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "permit_papers",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "TEXT", nullable: false),
                    permit_id = table.Column<Guid>(type: "TEXT", nullable: false),
                    received_at = table.Column<DateTime>(type: "TEXT", nullable: false),
                    sent_by = table.Column<Guid>(type: "TEXT", nullable: false),
                    kind = table.Column<string>(type: "TEXT", maxLength: 32, nullable: false),
                    note = table.Column<string>(type: "TEXT", maxLength: 400, nullable: true),
                    pages = table.Column<int>(type: "INTEGER", nullable: false),
                    content = table.Column<byte[]>(type: "BLOB", nullable: false),
                    removed_at = table.Column<DateTime>(type: "TEXT", nullable: true),
                    removed_by = table.Column<Guid>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_permit_papers", x => x.id);
                    table.ForeignKey(
                        name: "fk_permit_papers_permits_permit_id",
                        column: x => x.permit_id,
                        principalTable: "permits",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_permit_papers_permit_id_received_at",
                table: "permit_papers",
                columns: new[] { "permit_id", "received_at" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "permit_papers");
        }
    }
}
