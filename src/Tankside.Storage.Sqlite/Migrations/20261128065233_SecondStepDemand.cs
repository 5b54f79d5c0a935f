using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.Sqlite.Migrations
{
    /// <inheritdoc />
    public partial class SecondStepDemand : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "second_step_for",
                table: "programmes",
                type: "TEXT",
                maxLength: 32,
                nullable: false,
                defaultValue: "Nobody");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "second_step_for",
                table: "programmes");
        }
    }
}
