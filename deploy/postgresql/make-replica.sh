#!/bin/sh
# Makes this machine's PostgreSQL a replica of another. Run as the user postgres, with the server here stopped and its data folder empty:
#   make-replica.sh 'host=10.0.0.11 port=5432 user=replicator' /var/lib/postgresql/15/main tankside_replica
# The user needs REPLICATION and a line "host replication replicator 10.0.0.12/32 scram-sha-256" in the other's pg_hba.conf, its password
# stands in ~/.pgpass. Then start the server here.
set -eu
other=$1 data=$2 name=$3

# A slot that an earlier try left behind would be in the way. One that is in use is not touched, and stops us below.
psql --dbname="$other dbname=postgres" --quiet --no-align --tuples-only --command="
  SELECT pg_drop_replication_slot(slot_name) FROM pg_replication_slots WHERE slot_name = '$name' AND NOT active" >/dev/null

pg_basebackup --dbname="$other application_name=$name" --pgdata="$data" --checkpoint=fast --wal-method=stream \
  --write-recovery-conf --create-slot --slot="$name"

# Whom the other waits for is not whom this one waits for: made the primary, it would wait for itself.
sed -i '/^synchronous_standby_names/d' "$data/postgresql.auto.conf"
