#!/usr/bin/env bash
# Rehearses the recovery of a PostgreSQL to a moment, as docs/backup.md describes it, on a server of its own in a temporary folder: archive,
# base backup, an accident, and the state of the moment before it. Touches no other server. Needs PostgreSQL's server programs; as root it
# runs them as the user postgres.
#   deploy/pitr-drill.sh
set -euo pipefail

bin=${PGBIN:-$(ls -d /usr/lib/postgresql/*/bin | sort -V | tail -n 1)}
port=${PORT:-28599}
place=$(mktemp -d)
as=()
if [ "$(id -u)" -eq 0 ]; then
    chown postgres "$place"
    as=(setpriv --reuid=postgres --regid=postgres --init-groups --)
fi

pg() { local program=$1; shift; (cd "$place" && "${as[@]}" "$bin/$program" "$@"); }
sql() { (cd "$place" && "${as[@]}" "$bin/psql" -X -q -A -t -v ON_ERROR_STOP=1 -h "$place" -p "$port" -U postgres -d postgres -c "$1"); }
stop() { pg pg_ctl -D "$1" -m fast -s stop >/dev/null 2>&1 || true; }
finish() { stop "$place/main"; stop "$place/recovered"; rm -rf "$place"; }
trap finish EXIT

echo "== A server that keeps its log (archive_mode, archive_command)"
pg initdb -A trust -U postgres -D "$place/main" >/dev/null
"${as[@]}" mkdir -m 700 "$place/archive"
cat >>"$place/main/postgresql.conf" <<CONF
listen_addresses = ''
unix_socket_directories = '$place'
port = $port
archive_mode = on
archive_command = 'test ! -f $place/archive/%f && cp %p $place/archive/.%f && sync $place/archive/.%f && mv $place/archive/.%f $place/archive/%f'
archive_timeout = 60
CONF
pg pg_ctl -w -s -D "$place/main" -l "$place/main.log" start >/dev/null </dev/null
sql "CREATE TABLE readings (id int PRIMARY KEY, at timestamptz NOT NULL DEFAULT clock_timestamp()); INSERT INTO readings SELECT generate_series(1, 1000)"

echo "== A base backup, checked by pg_verifybackup"
pg pg_basebackup -h "$place" -p "$port" -U postgres -D "$place/base" -c fast --wal-method=none
pg pg_verifybackup --no-parse-wal -q "$place/base"

echo "== Work after it, a moment, and an accident"
sql "INSERT INTO readings SELECT generate_series(1001, 1500)"
moment=$(sql "SELECT clock_timestamp()")
before=$(sql "SELECT count(*) || ' ' || md5(string_agg(id || ' ' || at, ',' ORDER BY id)) FROM readings")
sql "INSERT INTO readings SELECT generate_series(1501, 1600)"
sql "DELETE FROM readings WHERE id > 200"
sql "SELECT pg_switch_wal()" >/dev/null
last=$(sql "SELECT pg_walfile_name(pg_current_wal_lsn() - 1)")
for _ in $(seq 300); do [ -e "$place/archive/$last" ] && break; sleep 0.1; done
echo "   the moment is $moment; after the accident $(sql "SELECT count(*) FROM readings") rows are left of 1600"
stop "$place/main"

echo "== Recovery into a folder of its own, to the moment before"
(cd "$place" && "${as[@]}" cp -a base recovered)
cat >>"$place/recovered/postgresql.conf" <<CONF
archive_mode = off
restore_command = 'cp $place/archive/%f %p'
recovery_target_time = '$moment'
recovery_target_action = 'promote'
CONF
"${as[@]}" touch "$place/recovered/recovery.signal"
pg pg_ctl -w -s -D "$place/recovered" -l "$place/recovered.log" start >/dev/null </dev/null
for _ in $(seq 300); do [ "$(sql 'SELECT pg_is_in_recovery()')" = f ] && break; sleep 0.1; done
after=$(sql "SELECT count(*) || ' ' || md5(string_agg(id || ' ' || at, ',' ORDER BY id)) FROM readings")
grep -E "recovery stopping|last completed transaction" "$place/recovered.log" | sed 's/^/   /'

if [ "$before" != "$after" ]; then
    echo "NOT recovered: was $before, is $after" >&2
    exit 1
fi
echo "good: ${after%% *} rows, each value as it was at $moment; the accident is not in it"
