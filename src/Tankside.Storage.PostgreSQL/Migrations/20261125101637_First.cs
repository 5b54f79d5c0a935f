using System;
using System.Collections.Generic;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <inheritdoc />
    public partial class First : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "data_protection_keys",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    friendly_name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    xml = table.Column<string>(type: "character varying(8000)", maxLength: 8000, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_data_protection_keys", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "people",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    language = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    is_demo = table.Column<bool>(type: "boolean", nullable: false),
                    user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    password_hash = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    security_stamp = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    concurrency_stamp = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    phone_number = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    phone_number_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    two_factor_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    lockout_end = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    lockout_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    access_failed_count = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_people", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "programmes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    time_zone = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    screen_unit = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_programmes", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "set_up_links",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    secret = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    expires_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    used_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_set_up_links", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "unjudged_facts",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_unjudged_facts", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "user_claims",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    claim_type = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    claim_value = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_user_claims", x => x.id);
                    table.ForeignKey(
                        name: "fk_user_claims_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "user_logins",
                columns: table => new
                {
                    login_provider = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    provider_key = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    provider_display_name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_user_logins", x => new { x.login_provider, x.provider_key });
                    table.ForeignKey(
                        name: "fk_user_logins_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "user_tokens",
                columns: table => new
                {
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    login_provider = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    value = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_user_tokens", x => new { x.user_id, x.login_provider, x.name });
                    table.ForeignKey(
                        name: "fk_user_tokens_people_user_id",
                        column: x => x.user_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "api_keys",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    role = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    secret_hash = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    all_tanks = table.Column<bool>(type: "boolean", nullable: false),
                    tank_ids = table.Column<List<Guid>>(type: "uuid[]", nullable: false),
                    issued_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    revoked_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_api_keys", x => x.id);
                    table.ForeignKey(
                        name: "fk_api_keys_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "invitations",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    email = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    role = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    school_id = table.Column<Guid>(type: "uuid", nullable: true),
                    secret_hash = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    invited_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    invited_by = table.Column<Guid>(type: "uuid", nullable: false),
                    expires_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    accepted_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    withdrawn_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_invitations", x => x.id);
                    table.ForeignKey(
                        name: "fk_invitations_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "memberships",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    person_id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    role = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    school_id = table.Column<Guid>(type: "uuid", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_memberships", x => x.id);
                    table.ForeignKey(
                        name: "fk_memberships_people_person_id",
                        column: x => x.person_id,
                        principalTable: "people",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_memberships_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "permits",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    species = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    water = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    fish = table.Column<int>(type: "integer", nullable: false),
                    from = table.Column<DateOnly>(type: "date", nullable: false),
                    to = table.Column<DateOnly>(type: "date", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_permits", x => x.id);
                    table.ForeignKey(
                        name: "fk_permits_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "release_sites",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    water = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_release_sites", x => x.id);
                    table.ForeignKey(
                        name: "fk_release_sites_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "schools",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    area = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    opens_at = table.Column<TimeOnly>(type: "time without time zone", nullable: false),
                    closes_at = table.Column<TimeOnly>(type: "time without time zone", nullable: false),
                    disinfectant = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    elevation_m = table.Column<double>(type: "double precision", nullable: false),
                    distance_km = table.Column<double>(type: "double precision", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_schools", x => x.id);
                    table.ForeignKey(
                        name: "fk_schools_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "seasons",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    starts_on = table.Column<DateOnly>(type: "date", nullable: false),
                    ends_on = table.Column<DateOnly>(type: "date", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_seasons", x => x.id);
                    table.ForeignKey(
                        name: "fk_seasons_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "settings",
                columns: table => new
                {
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    key = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    value = table.Column<double>(type: "double precision", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_settings", x => new { x.programme_id, x.key });
                    table.ForeignKey(
                        name: "fk_settings_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "classrooms",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    school_id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    new_teacher = table.Column<bool>(type: "boolean", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_classrooms", x => x.id);
                    table.ForeignKey(
                        name: "fk_classrooms_schools_school_id",
                        column: x => x.school_id,
                        principalTable: "schools",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "closures",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    school_id = table.Column<Guid>(type: "uuid", nullable: true),
                    first_day = table.Column<DateOnly>(type: "date", nullable: false),
                    last_day = table.Column<DateOnly>(type: "date", nullable: false),
                    reason = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_closures", x => x.id);
                    table.ForeignKey(
                        name: "fk_closures_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_closures_schools_school_id",
                        column: x => x.school_id,
                        principalTable: "schools",
                        principalColumn: "id");
                });

            migrationBuilder.CreateTable(
                name: "egg_lots",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    season_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    species = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    strain = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    ploidy = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    source = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    fertilised_from = table.Column<DateOnly>(type: "date", nullable: false),
                    fertilised_to = table.Column<DateOnly>(type: "date", nullable: false),
                    hatchery_mean_c = table.Column<double>(type: "double precision", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_egg_lots", x => x.id);
                    table.ForeignKey(
                        name: "fk_egg_lots_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "tanks",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    classroom_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    litres = table.Column<double>(type: "double precision", nullable: false),
                    jacket = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    set_point_c = table.Column<double>(type: "double precision", nullable: false),
                    room_c = table.Column<double>(type: "double precision", nullable: false),
                    usual_unit = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    chiller_batch = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    closed_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tanks", x => x.id);
                    table.ForeignKey(
                        name: "fk_tanks_classrooms_classroom_id",
                        column: x => x.classroom_id,
                        principalTable: "classrooms",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_tanks_programmes_programme_id",
                        column: x => x.programme_id,
                        principalTable: "programmes",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "allotments",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    season_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    lot_id = table.Column<Guid>(type: "uuid", nullable: false),
                    eggs = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_allotments", x => x.id);
                    table.ForeignKey(
                        name: "fk_allotments_egg_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "egg_lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_allotments_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_allotments_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "flags",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    programme_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    state = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    urgency = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    opened_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    updated_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    settled_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    settlement = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    stands_on = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    evidence = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: false),
                    hazard = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: false),
                    rule_version = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    taken_by = table.Column<Guid>(type: "uuid", nullable: true),
                    taken_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    said_over_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    turn = table.Column<int>(type: "integer", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_flags", x => x.id);
                    table.ForeignKey(
                        name: "fk_flags_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "ledger",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    sender_id = table.Column<Guid>(type: "uuid", nullable: true),
                    season_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    count = table.Column<int>(type: "integer", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    entered_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    entered_by = table.Column<Guid>(type: "uuid", nullable: true),
                    counted_by = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    about = table.Column<bool>(type: "boolean", nullable: false),
                    reading = table.Column<Guid>(type: "uuid", nullable: true),
                    release_id = table.Column<Guid>(type: "uuid", nullable: true),
                    transfer_id = table.Column<Guid>(type: "uuid", nullable: true),
                    corrects_id = table.Column<long>(type: "bigint", nullable: true),
                    note = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_ledger", x => x.id);
                    table.ForeignKey(
                        name: "fk_ledger_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_ledger_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "readings",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    sender_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    received_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    source = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    entered_by = table.Column<Guid>(type: "uuid", nullable: true),
                    state = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    typed_water = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    typed_unit = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    doubtful_field = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    doubt = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    confirmed_by = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    corrects = table.Column<Guid>(type: "uuid", nullable: true),
                    corrected_by = table.Column<Guid>(type: "uuid", nullable: true),
                    content_hash = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    ammonia_total_mg_l = table.Column<double>(type: "double precision", nullable: true),
                    bubbles = table.Column<bool>(type: "boolean", nullable: true),
                    chiller_running = table.Column<bool>(type: "boolean", nullable: true),
                    chlorine_mg_l = table.Column<double>(type: "double precision", nullable: true),
                    clear = table.Column<bool>(type: "boolean", nullable: true),
                    dead_alevins = table.Column<int>(type: "integer", nullable: true),
                    dead_eggs = table.Column<int>(type: "integer", nullable: true),
                    dead_fry = table.Column<int>(type: "integer", nullable: true),
                    fed = table.Column<bool>(type: "boolean", nullable: true),
                    fungus = table.Column<bool>(type: "boolean", nullable: true),
                    gasping = table.Column<bool>(type: "boolean", nullable: true),
                    hatched = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    ice_on_coil = table.Column<bool>(type: "boolean", nullable: true),
                    level_ok = table.Column<bool>(type: "boolean", nullable: true),
                    moving = table.Column<bool>(type: "boolean", nullable: true),
                    nitrite_mg_l = table.Column<double>(type: "double precision", nullable: true),
                    note = table.Column<string>(type: "character varying(1000)", maxLength: 1000, nullable: true),
                    oxygen_mg_l = table.Column<double>(type: "double precision", nullable: true),
                    ph = table.Column<double>(type: "double precision", nullable: true),
                    room_c = table.Column<double>(type: "double precision", nullable: true),
                    swimming = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    water_c = table.Column<double>(type: "double precision", nullable: true),
                    water_changed_percent = table.Column<double>(type: "double precision", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_readings", x => x.id);
                    table.ForeignKey(
                        name: "fk_readings_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "receipts",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    season_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    lot_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    run = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    eggs = table.Column<int>(type: "integer", nullable: false),
                    dead_on_arrival = table.Column<int>(type: "integer", nullable: false),
                    counted_by = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    box_c = table.Column<double>(type: "double precision", nullable: true),
                    tank_c = table.Column<double>(type: "double precision", nullable: true),
                    note = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_receipts", x => x.id);
                    table.ForeignKey(
                        name: "fk_receipts_egg_lots_lot_id",
                        column: x => x.lot_id,
                        principalTable: "egg_lots",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_receipts_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_receipts_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "releases",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    season_id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    site_id = table.Column<Guid>(type: "uuid", nullable: false),
                    permit_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    fish = table.Column<int>(type: "integer", nullable: false),
                    about = table.Column<bool>(type: "boolean", nullable: false),
                    tank_c = table.Column<double>(type: "double precision", nullable: true),
                    stream_c = table.Column<double>(type: "double precision", nullable: true),
                    entered_by = table.Column<Guid>(type: "uuid", nullable: true),
                    entered_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    note = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: true),
                    withdrawn_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true),
                    withdrawn_by = table.Column<Guid>(type: "uuid", nullable: true),
                    version = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_releases", x => x.id);
                    table.ForeignKey(
                        name: "fk_releases_permits_permit_id",
                        column: x => x.permit_id,
                        principalTable: "permits",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_releases_release_sites_site_id",
                        column: x => x.site_id,
                        principalTable: "release_sites",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_releases_seasons_season_id",
                        column: x => x.season_id,
                        principalTable: "seasons",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                    table.ForeignKey(
                        name: "fk_releases_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "room_codes",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    code = table.Column<string>(type: "character varying(400)", maxLength: 400, nullable: false),
                    issued_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    revoked_at = table.Column<DateTime>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_room_codes", x => x.id);
                    table.ForeignKey(
                        name: "fk_room_codes_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "tank_days",
                columns: table => new
                {
                    tank_id = table.Column<Guid>(type: "uuid", nullable: false),
                    day = table.Column<DateOnly>(type: "date", nullable: false),
                    readings = table.Column<int>(type: "integer", nullable: false),
                    water_readings = table.Column<int>(type: "integer", nullable: false),
                    mean_c = table.Column<double>(type: "double precision", nullable: true),
                    min_c = table.Column<double>(type: "double precision", nullable: true),
                    max_c = table.Column<double>(type: "double precision", nullable: true),
                    dead_eggs = table.Column<int>(type: "integer", nullable: true),
                    dead_alevins = table.Column<int>(type: "integer", nullable: true),
                    dead_fry = table.Column<int>(type: "integer", nullable: true),
                    hatched = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    swimming = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_tank_days", x => new { x.tank_id, x.day });
                    table.ForeignKey(
                        name: "fk_tank_days_tanks_tank_id",
                        column: x => x.tank_id,
                        principalTable: "tanks",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "flag_events",
                columns: table => new
                {
                    id = table.Column<long>(type: "bigint", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    flag_id = table.Column<Guid>(type: "uuid", nullable: false),
                    at = table.Column<DateTime>(type: "timestamp with time zone", nullable: false),
                    by = table.Column<Guid>(type: "uuid", nullable: true),
                    deed = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: false),
                    note = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: true),
                    outcome = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true),
                    evidence = table.Column<string>(type: "character varying(2000)", maxLength: 2000, nullable: true),
                    urgency = table.Column<string>(type: "character varying(32)", maxLength: 32, nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_flag_events", x => x.id);
                    table.ForeignKey(
                        name: "fk_flag_events_flags_flag_id",
                        column: x => x.flag_id,
                        principalTable: "flags",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateIndex(
                name: "ix_allotments_lot_id",
                table: "allotments",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_allotments_season_id_tank_id",
                table: "allotments",
                columns: new[] { "season_id", "tank_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_allotments_tank_id",
                table: "allotments",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_api_keys_programme_id",
                table: "api_keys",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_api_keys_secret_hash",
                table: "api_keys",
                column: "secret_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_classrooms_school_id_name",
                table: "classrooms",
                columns: new[] { "school_id", "name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_closures_programme_id",
                table: "closures",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_closures_school_id",
                table: "closures",
                column: "school_id");

            migrationBuilder.CreateIndex(
                name: "ix_egg_lots_season_id_code",
                table: "egg_lots",
                columns: new[] { "season_id", "code" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_flag_events_flag_id_id",
                table: "flag_events",
                columns: new[] { "flag_id", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_flags_one_open",
                table: "flags",
                columns: new[] { "tank_id", "kind" },
                unique: true,
                filter: "state = 'Open'");

            migrationBuilder.CreateIndex(
                name: "ix_flags_programme_id_state_settled_at",
                table: "flags",
                columns: new[] { "programme_id", "state", "settled_at" });

            migrationBuilder.CreateIndex(
                name: "ix_flags_tank_id_state",
                table: "flags",
                columns: new[] { "tank_id", "state" });

            migrationBuilder.CreateIndex(
                name: "ix_invitations_programme_id",
                table: "invitations",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_invitations_secret_hash",
                table: "invitations",
                column: "secret_hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_ledger_season_id_tank_id",
                table: "ledger",
                columns: new[] { "season_id", "tank_id" });

            migrationBuilder.CreateIndex(
                name: "ix_ledger_tank_id_reading",
                table: "ledger",
                columns: new[] { "tank_id", "reading" });

            migrationBuilder.CreateIndex(
                name: "ix_ledger_tank_id_sender_id",
                table: "ledger",
                columns: new[] { "tank_id", "sender_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_memberships_person_id_programme_id",
                table: "memberships",
                columns: new[] { "person_id", "programme_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_memberships_programme_id",
                table: "memberships",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "email_index",
                table: "people",
                column: "normalized_email");

            migrationBuilder.CreateIndex(
                name: "user_name_index",
                table: "people",
                column: "normalized_user_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_permits_programme_id_number",
                table: "permits",
                columns: new[] { "programme_id", "number" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_programmes_name",
                table: "programmes",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_readings_state_tank_id",
                table: "readings",
                columns: new[] { "state", "tank_id" });

            migrationBuilder.CreateIndex(
                name: "ix_readings_tank_id_at",
                table: "readings",
                columns: new[] { "tank_id", "at" });

            migrationBuilder.CreateIndex(
                name: "ix_readings_tank_id_sender_id",
                table: "readings",
                columns: new[] { "tank_id", "sender_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_receipts_lot_id",
                table: "receipts",
                column: "lot_id");

            migrationBuilder.CreateIndex(
                name: "ix_receipts_season_id_tank_id",
                table: "receipts",
                columns: new[] { "season_id", "tank_id" });

            migrationBuilder.CreateIndex(
                name: "ix_receipts_tank_id",
                table: "receipts",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_release_sites_programme_id_name",
                table: "release_sites",
                columns: new[] { "programme_id", "name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_releases_permit_id",
                table: "releases",
                column: "permit_id");

            migrationBuilder.CreateIndex(
                name: "ix_releases_season_id_tank_id",
                table: "releases",
                columns: new[] { "season_id", "tank_id" });

            migrationBuilder.CreateIndex(
                name: "ix_releases_site_id",
                table: "releases",
                column: "site_id");

            migrationBuilder.CreateIndex(
                name: "ix_releases_tank_id",
                table: "releases",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_room_codes_code",
                table: "room_codes",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_room_codes_tank_id",
                table: "room_codes",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_schools_programme_id_name",
                table: "schools",
                columns: new[] { "programme_id", "name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_seasons_programme_id_name",
                table: "seasons",
                columns: new[] { "programme_id", "name" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_tanks_classroom_id",
                table: "tanks",
                column: "classroom_id");

            migrationBuilder.CreateIndex(
                name: "ix_tanks_code",
                table: "tanks",
                column: "code",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_tanks_programme_id",
                table: "tanks",
                column: "programme_id");

            migrationBuilder.CreateIndex(
                name: "ix_unjudged_facts_tank_id",
                table: "unjudged_facts",
                column: "tank_id");

            migrationBuilder.CreateIndex(
                name: "ix_user_claims_user_id",
                table: "user_claims",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_user_logins_user_id",
                table: "user_logins",
                column: "user_id");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "allotments");

            migrationBuilder.DropTable(
                name: "api_keys");

            migrationBuilder.DropTable(
                name: "closures");

            migrationBuilder.DropTable(
                name: "data_protection_keys");

            migrationBuilder.DropTable(
                name: "flag_events");

            migrationBuilder.DropTable(
                name: "invitations");

            migrationBuilder.DropTable(
                name: "ledger");

            migrationBuilder.DropTable(
                name: "memberships");

            migrationBuilder.DropTable(
                name: "readings");

            migrationBuilder.DropTable(
                name: "receipts");

            migrationBuilder.DropTable(
                name: "releases");

            migrationBuilder.DropTable(
                name: "room_codes");

            migrationBuilder.DropTable(
                name: "set_up_links");

            migrationBuilder.DropTable(
                name: "settings");

            migrationBuilder.DropTable(
                name: "tank_days");

            migrationBuilder.DropTable(
                name: "unjudged_facts");

            migrationBuilder.DropTable(
                name: "user_claims");

            migrationBuilder.DropTable(
                name: "user_logins");

            migrationBuilder.DropTable(
                name: "user_tokens");

            migrationBuilder.DropTable(
                name: "flags");

            migrationBuilder.DropTable(
                name: "egg_lots");

            migrationBuilder.DropTable(
                name: "permits");

            migrationBuilder.DropTable(
                name: "release_sites");

            migrationBuilder.DropTable(
                name: "people");

            migrationBuilder.DropTable(
                name: "tanks");

            migrationBuilder.DropTable(
                name: "seasons");

            migrationBuilder.DropTable(
                name: "classrooms");

            migrationBuilder.DropTable(
                name: "schools");

            migrationBuilder.DropTable(
                name: "programmes");
        }
    }
}
