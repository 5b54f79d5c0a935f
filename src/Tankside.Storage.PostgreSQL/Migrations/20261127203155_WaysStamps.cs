using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class WaysStamps : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "ways_stamps",
                columns: table => new
                {
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    stamp = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ways_stamps", x => x.programme_id);
                });

            migrationBuilder.Sql(
                """
                CREATE FUNCTION stamp_ways() RETURNS trigger LANGUAGE plpgsql AS $$
                DECLARE
                    changed uuid := CASE TG_OP WHEN 'DELETE' THEN OLD.programme_id ELSE NEW.programme_id END;
                BEGIN
                    INSERT INTO ways_stamps (programme_id, stamp) VALUES (changed, (random() * 9007199254740992)::bigint)
                    ON CONFLICT (programme_id) DO UPDATE SET stamp = EXCLUDED.stamp;
                    RETURN NULL;
                END
                $$;
                """);
            foreach (var table in new[] { "closures", "settings", "own_texts", "area_sweeps" })
            {
                migrationBuilder.Sql($"CREATE TRIGGER stamp_ways AFTER INSERT OR UPDATE OR DELETE ON {table} FOR EACH ROW EXECUTE FUNCTION stamp_ways()");
            }
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            foreach (var table in new[] { "closures", "settings", "own_texts", "area_sweeps" })
            {
                migrationBuilder.Sql($"DROP TRIGGER stamp_ways ON {table}");
            }

            migrationBuilder.Sql("DROP FUNCTION stamp_ways()");

            migrationBuilder.DropTable(
                name: "ways_stamps");
        }
    }
}
