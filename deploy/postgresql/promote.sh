#!/bin/sh
# Makes the replica on this machine the primary. Run as the user postgres, when the old primary is down and stays down:
#   promote.sh /var/lib/postgresql/15/main
# The portals find it by themselves within seconds. Never start the old primary again as it is: it would take writes that nobody else has.
# Empty its data folder and make it a replica of this one (make-replica.sh).
set -eu
data=$1
if [ ! -e "$data/standby.signal" ]; then
  echo "Nothing was done: the server in $data is no replica." >&2
  exit 1
fi

sed -i '/^synchronous_standby_names/d' "$data/postgresql.auto.conf"
pg_ctl promote --wait --silent --pgdata="$data"
