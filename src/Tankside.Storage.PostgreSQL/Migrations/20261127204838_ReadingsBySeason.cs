using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace Tankside.Storage.PostgreSQL.Migrations
{
    /// <summary>
    /// The readings become a table in parts, one a season. What is there already stays where it lies, as the part of all seasons up to now:
    /// nothing is copied. Decision 18 says why each part has its own unique index.
    /// </summary>
    public partial class ReadingsBySeason : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder) => migrationBuilder.Sql(
            """
            CREATE FUNCTION season_of(instant timestamptz) RETURNS integer LANGUAGE sql STABLE AS
                'SELECT extract(year FROM (instant AT TIME ZONE ''UTC'') - interval ''7 months'')::integer';

            CREATE FUNCTION season_begins(season integer) RETURNS timestamptz LANGUAGE sql STABLE AS
                'SELECT make_timestamptz(season, 8, 1, 0, 0, 0, ''UTC'')';

            -- True when the season's readings have a part of their own; false when they lie in another, where they stay.
            CREATE FUNCTION add_readings_season(season integer) RETURNS boolean LANGUAGE plpgsql AS $$
            DECLARE
                part text := format('readings_%s', season);
            BEGIN
                IF to_regclass(part) IS NOT NULL THEN
                    RETURN true;
                END IF;
                EXECUTE format('CREATE TABLE %I (LIKE readings INCLUDING DEFAULTS INCLUDING CONSTRAINTS)', part);
                EXECUTE format('CREATE UNIQUE INDEX %I ON %I (tank_id, sender_id)', 'ix_' || part || '_tank_id_sender_id', part);
                EXECUTE format('ALTER TABLE readings ATTACH PARTITION %I FOR VALUES FROM (%L) TO (%L)', part, season_begins(season), season_begins(season + 1));
                RETURN true;
            EXCEPTION WHEN invalid_object_definition OR check_violation THEN
                RETURN false;
            END
            $$;

            ALTER TABLE readings RENAME TO readings_before;
            ALTER TABLE readings_before DROP CONSTRAINT pk_readings;
            ALTER TABLE readings_before ALTER id DROP IDENTITY;
            ALTER INDEX ix_readings_tank_id_sender_id RENAME TO ix_readings_before_tank_id_sender_id;
            ALTER INDEX ix_readings_tank_id_at RENAME TO ix_readings_before_tank_id_at;
            ALTER INDEX ix_readings_state_tank_id RENAME TO ix_readings_before_state_tank_id;
            ALTER INDEX ix_readings_import_id RENAME TO ix_readings_before_import_id;

            CREATE TABLE readings (LIKE readings_before INCLUDING DEFAULTS INCLUDING CONSTRAINTS) PARTITION BY RANGE (at);
            CREATE SEQUENCE readings_id_seq OWNED BY readings.id;
            SELECT setval('readings_id_seq', coalesce((SELECT max(id) FROM readings_before), 0) + 1, false);
            ALTER TABLE readings ALTER id SET DEFAULT nextval('readings_id_seq');
            ALTER TABLE readings_before ALTER id SET DEFAULT nextval('readings_id_seq');
            ALTER TABLE readings ADD CONSTRAINT pk_readings PRIMARY KEY (id, at);
            ALTER TABLE readings ADD CONSTRAINT fk_readings_tanks_tank_id FOREIGN KEY (tank_id) REFERENCES tanks (id) ON DELETE CASCADE;
            ALTER TABLE readings ADD CONSTRAINT fk_readings_reading_imports_import_id FOREIGN KEY (import_id) REFERENCES reading_imports (id);
            CREATE INDEX ix_readings_tank_id_at ON readings (tank_id, at);
            CREATE INDEX ix_readings_state_tank_id ON readings (state, tank_id);
            CREATE INDEX ix_readings_import_id ON readings (import_id);

            DO $$
            DECLARE
                newest timestamptz := (SELECT max(at) FROM readings_before);
                this_season integer := season_of(now());
                first_own integer := CASE WHEN newest IS NULL THEN this_season ELSE greatest(this_season, season_of(newest)) + 1 END;
            BEGIN
                EXECUTE format('ALTER TABLE readings ATTACH PARTITION readings_before FOR VALUES FROM (MINVALUE) TO (%L)', season_begins(first_own));
                PERFORM add_readings_season(first_own);
                PERFORM add_readings_season(first_own + 1);
            END
            $$;

            -- A reading is never refused for want of a part. Nothing lies here while a season ahead is always ready.
            CREATE TABLE readings_other PARTITION OF readings DEFAULT;
            CREATE UNIQUE INDEX ix_readings_other_tank_id_sender_id ON readings_other (tank_id, sender_id);
            """);

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder) => migrationBuilder.Sql(
            """
            CREATE TABLE readings_whole (LIKE readings INCLUDING CONSTRAINTS);
            INSERT INTO readings_whole SELECT * FROM readings;
            DROP TABLE readings;
            DROP FUNCTION add_readings_season(integer);
            DROP FUNCTION season_begins(integer);
            DROP FUNCTION season_of(timestamptz);
            ALTER TABLE readings_whole RENAME TO readings;
            ALTER TABLE readings ADD CONSTRAINT pk_readings PRIMARY KEY (id);
            ALTER TABLE readings ALTER id ADD GENERATED BY DEFAULT AS IDENTITY;
            SELECT setval(pg_get_serial_sequence('readings', 'id'), coalesce((SELECT max(id) FROM readings), 0) + 1, false);
            ALTER TABLE readings ADD CONSTRAINT fk_readings_tanks_tank_id FOREIGN KEY (tank_id) REFERENCES tanks (id) ON DELETE CASCADE;
            ALTER TABLE readings ADD CONSTRAINT fk_readings_reading_imports_import_id FOREIGN KEY (import_id) REFERENCES reading_imports (id);
            CREATE UNIQUE INDEX ix_readings_tank_id_sender_id ON readings (tank_id, sender_id);
            CREATE INDEX ix_readings_tank_id_at ON readings (tank_id, at);
            CREATE INDEX ix_readings_state_tank_id ON readings (state, tank_id);
            CREATE INDEX ix_readings_import_id ON readings (import_id);
            """);
    }
}
