using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class KitHistory : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<int>(
                name: "acts",
                table: "kit_items",
                type: "integer",
                nullable: false,
                defaultValue: 0);

            migrationBuilder.AddColumn<DateOnly>(
                name: "bought_on",
                table: "kit_items",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "depot_id",
                table: "kit_items",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<bool>(
                name: "to_clean",
                table: "kit_items",
                type: "boolean",
                nullable: false,
                defaultValue: false);

            migrationBuilder.AddColumn<DateOnly>(
                name: "warranty_until",
                table: "kit_items",
                type: "date",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "batch",
                table: "kit_items",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "owner",
                table: "kit_items",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "with_person_id",
                table: "kit_items",
                type: "uuid",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "consumables",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    unit = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    in_stock = table.Column<int>(type: "integer", nullable: false),
                    reorder_at = table.Column<int>(type: "integer", nullable: false),
                    reorder_quantity = table.Column<int>(type: "integer", nullable: false),
                    supplier = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    ordered_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_consumables", x => x.id);
                    table.ForeignKey(
                        name: "fk_consumables_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "kit_acts",
                columns: table => new
                {
                    item_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    sender_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    by = table.Column<Guid>(type: "uuid", nullable: true),
                    from_place = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    from_id = table.Column<Guid>(type: "uuid", nullable: true),
                    to_place = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    to_id = table.Column<Guid>(type: "uuid", nullable: true),
                    before = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    after = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    note = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_kit_acts", x => new { x.item_id, x.number });
                    table.ForeignKey(
                        name: "fk_kit_acts_kit_items_item_id",
                        column: x => x.item_id,
                        principalTable: "kit_items",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "kit_depots",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    school_id = table.Column<Guid>(type: "uuid", nullable: true),
                    holder_id = table.Column<Guid>(type: "uuid", nullable: true),
                    holder = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    phone = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    hours = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    latitude = table.Column<double>(type: "double precision", nullable: true),
                    longitude = table.Column<double>(type: "double precision", nullable: true),
                    closed_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_kit_depots", x => x.id);
                    table.ForeignKey(
                        name: "fk_kit_depots_people_holder_id",
                        column: x => x.holder_id,
                        principalTable: "people",
                        principalColumn: "id");
                    table.ForeignKey(
                        name: "fk_kit_depots_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_kit_depots_schools_school_id",
                        column: x => x.school_id,
                        principalTable: "schools",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "kit_photos",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    item_id = table.Column<Guid>(type: "uuid", nullable: false),
                    received_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    sent_by = table.Column<Guid>(type: "uuid", nullable: false),
                    note = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    width = table.Column<int>(type: "integer", nullable: false),
                    height = table.Column<int>(type: "integer", nullable: false),
                    content = table.Column<byte[]>(type: "bytea", nullable: false),
                    removed_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    removed_by = table.Column<Guid>(type: "uuid", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_kit_photos", x => x.id);
                    table.ForeignKey(
                        name: "fk_kit_photos_kit_items_item_id",
                        column: x => x.item_id,
                        principalTable: "kit_items",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "consumable_moves",
                columns: table => new
                {
                    consumable_id = table.Column<Guid>(type: "uuid", nullable: false),
                    sender_id = table.Column<Guid>(type: "uuid", nullable: false),
                    change = table.Column<int>(type: "integer", nullable: false),
                    in_stock_after = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    by = table.Column<Guid>(type: "uuid", nullable: false),
                    note = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_consumable_moves", x => new { x.consumable_id, x.sender_id });
                    table.ForeignKey(
                        name: "fk_consumable_moves_consumables_consumable_id",
                        column: x => x.consumable_id,
                        principalTable: "consumables",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_consumables_programme_id_name",
                table: "consumables",
                columns: new[] { "programme_id", "name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_kit_acts_item_id_sender_id",
                table: "kit_acts",
                columns: new[] { "item_id", "sender_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_kit_depots_holder_id",
                table: "kit_depots",
                column: "holder_id");

            migrationBuilder.CreateIndex(
                name: "ix_kit_depots_programme_id",
                table: "kit_depots",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_kit_depots_school_id",
                table: "kit_depots",
                column: "school_id");

            migrationBuilder.CreateIndex(
                name: "ix_kit_photos_item_id_received_at",
                table: "kit_photos",
                columns: new[] { "item_id", "received_at" });

            // Where spares lay was written on each of them; now each of these places is a depot, named by the first that lies there.
            migrationBuilder.Sql("UPDATE kit_items SET in_tank_id = NULL WHERE condition IN ('InRepair', 'Retired')");
            migrationBuilder.Sql(
                """
                UPDATE kit_items SET depot_id = (
                    SELECT MIN(o.id::text)::uuid FROM kit_items o
                    WHERE o.programme_id = kit_items.programme_id AND o.in_tank_id IS NULL AND o.condition NOT IN ('InRepair', 'Retired')
                      AND (o.school_id IS NOT NULL OR o.place IS NOT NULL OR o.holder IS NOT NULL OR o.latitude IS NOT NULL)
                      AND o.school_id IS NOT DISTINCT FROM kit_items.school_id
                      AND o.place IS NOT DISTINCT FROM kit_items.place
                      AND o.holder IS NOT DISTINCT FROM kit_items.holder
                      AND o.holder_phone IS NOT DISTINCT FROM kit_items.holder_phone
                      AND o.hours IS NOT DISTINCT FROM kit_items.hours
                      AND o.latitude IS NOT DISTINCT FROM kit_items.latitude
                      AND o.longitude IS NOT DISTINCT FROM kit_items.longitude)
                WHERE in_tank_id IS NULL AND condition NOT IN ('InRepair', 'Retired')
                      AND (school_id IS NOT NULL OR place IS NOT NULL OR holder IS NOT NULL OR latitude IS NOT NULL)
                """);
            migrationBuilder.Sql(
                """
                INSERT INTO kit_depots (id, programme_id, name, school_id, holder, phone, hours, latitude, longitude, version)
                SELECT k.id, k.programme_id, COALESCE(s.name || ', ' || k.place, k.place, s.name, k.holder, 'Depot'),
                    k.school_id, k.holder, k.holder_phone, k.hours, k.latitude, k.longitude, 0
                FROM kit_items k LEFT JOIN schools s ON s.id = k.school_id
                WHERE k.depot_id = k.id
                """);

            migrationBuilder.DropForeignKey(
                name: "fk_kit_items_schools_school_id",
                table: "kit_items");

            migrationBuilder.DropIndex(
                name: "ix_kit_items_school_id",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "school_id",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "place",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "hours",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "holder",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "holder_phone",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "latitude",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "longitude",
                table: "kit_items");

            migrationBuilder.CreateIndex(
                name: "ix_kit_items_depot_id",
                table: "kit_items",
                column: "depot_id");

            migrationBuilder.CreateIndex(
                name: "ix_kit_items_with_person_id",
                table: "kit_items",
                column: "with_person_id");

            migrationBuilder.AddCheckConstraint(
                name: "ck_kit_items_one_place",
                table: "kit_items",
                sql: "(in_tank_id IS NULL OR depot_id IS NULL) AND (in_tank_id IS NULL OR with_person_id IS NULL) AND (depot_id IS NULL OR with_person_id IS NULL) AND (condition NOT IN ('InRepair', 'Retired') OR (in_tank_id IS NULL AND depot_id IS NULL AND with_person_id IS NULL))");

            migrationBuilder.AddForeignKey(
                name: "fk_kit_items_kit_depots_depot_id",
                table: "kit_items",
                column: "depot_id",
                principalTable: "kit_depots",
                principalColumn: "id");

            migrationBuilder.AddForeignKey(
                name: "fk_kit_items_people_with_person_id",
                table: "kit_items",
                column: "with_person_id",
                principalTable: "people",
                principalColumn: "id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "holder",
                table: "kit_items",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "holder_phone",
                table: "kit_items",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "latitude",
                table: "kit_items",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<double>(
                name: "longitude",
                table: "kit_items",
                type: "double precision",
                nullable: true);

            migrationBuilder.AddColumn<Guid>(
                name: "school_id",
                table: "kit_items",
                type: "uuid",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "place",
                table: "kit_items",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "hours",
                table: "kit_items",
                type: "character varying(400)",
                maxLength: 400,
                nullable: true);

            // The older schema has no depots: where a spare lies goes back onto it.
            migrationBuilder.Sql(
                """
                UPDATE kit_items SET
                    school_id = (SELECT d.school_id FROM kit_depots d WHERE d.id = kit_items.depot_id),
                    place = (SELECT d.name FROM kit_depots d WHERE d.id = kit_items.depot_id),
                    holder = (SELECT d.holder FROM kit_depots d WHERE d.id = kit_items.depot_id),
                    holder_phone = (SELECT d.phone FROM kit_depots d WHERE d.id = kit_items.depot_id),
                    hours = (SELECT d.hours FROM kit_depots d WHERE d.id = kit_items.depot_id),
                    latitude = (SELECT d.latitude FROM kit_depots d WHERE d.id = kit_items.depot_id),
                    longitude = (SELECT d.longitude FROM kit_depots d WHERE d.id = kit_items.depot_id)
                WHERE depot_id IS NOT NULL
                """);
            migrationBuilder.Sql("UPDATE kit_items SET depot_id = NULL");

            migrationBuilder.DropForeignKey(
                name: "fk_kit_items_kit_depots_depot_id",
                table: "kit_items");

            migrationBuilder.DropForeignKey(
                name: "fk_kit_items_people_with_person_id",
                table: "kit_items");

            migrationBuilder.DropCheckConstraint(
                name: "ck_kit_items_one_place",
                table: "kit_items");

            migrationBuilder.DropTable(
                name: "consumable_moves");

            migrationBuilder.DropTable(
                name: "kit_acts");

            migrationBuilder.DropTable(
                name: "kit_depots");

            migrationBuilder.DropTable(
                name: "kit_photos");

            migrationBuilder.DropTable(
                name: "consumables");

            migrationBuilder.DropIndex(
                name: "ix_kit_items_depot_id",
                table: "kit_items");

            migrationBuilder.DropIndex(
                name: "ix_kit_items_with_person_id",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "acts",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "bought_on",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "depot_id",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "to_clean",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "warranty_until",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "batch",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "owner",
                table: "kit_items");

            migrationBuilder.DropColumn(
                name: "with_person_id",
                table: "kit_items");

            migrationBuilder.CreateIndex(
                name: "ix_kit_items_school_id",
                table: "kit_items",
                column: "school_id");

            migrationBuilder.AddForeignKey(
                name: "fk_kit_items_schools_school_id",
                table: "kit_items",
                column: "school_id",
                principalTable: "schools",
                principalColumn: "id");
        }
    }
}
