#!/usr/bin/env bash
# Goes through docs/install.md on a fresh Debian 12 in a folder, without a network of its own but loopback, and without systemd: a small stand-in
# starts what the unit files say, as the user they say. Blocks marked by-hand (certificate, Microsoft's package source, an editor) are left out and named.
# Needs root, debootstrap, a .NET runtime on this machine, and the published program:
#   dotnet publish src/Tankside.Portal -c Release -r linux-x64 --no-self-contained -o published
#   deploy/try-install.sh published [FOLDER OF A FRESH DEBIAN]
set -euo pipefail

here=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
published=$(cd "${1:?say where the published program lies}" && pwd)
if [ -n "${2:-}" ]; then root=$2; own=; else root=$(mktemp -d)/debian; own=yes; fi

finish() {
    # Only what runs inside the folder is stopped.
    for process in /proc/[0-9]*; do
        if [ "$(readlink "$process/root" 2>/dev/null)" = "$root" ]; then kill "${process#/proc/}" 2>/dev/null || true; fi
    done
    sleep 1
    for mount in dev/shm dev/pts dev proc; do umount -l "$root/$mount" 2>/dev/null || true; done
    if [ -n "$own" ]; then rm -rf --one-file-system "$(dirname "$root")"; fi
}
trap finish EXIT

if [ ! -e "$root/etc/debian_version" ]; then
    echo "== A fresh Debian 12"
    debootstrap --variant=minbase --include=ca-certificates bookworm "$root" "${DEBIAN_MIRROR:-http://deb.debian.org/debian}" >/dev/null
fi
mount -t proc proc "$root/proc"
mount --rbind /dev "$root/dev"
mount --make-rslave "$root/dev"
cp /etc/resolv.conf "$root/etc/resolv.conf"

echo "== The runtime of this machine, in place of the package"
dotnet=$(dirname "$(readlink -f "$(command -v dotnet)")")
mkdir -p "$root/usr/share/dotnet" "$root/root/project"
cp -r "$dotnet/dotnet" "$dotnet/host" "$dotnet/shared" "$root/usr/share/dotnet/"
ln -sf /usr/share/dotnet/dotnet "$root/usr/bin/dotnet"
cp -r "$here/deploy" "$here/docs" "$root/root/project/"
cp -r "$published" "$root/root/project/published"

# What the page says, in its order: the blocks to be typed, and the names of those left out.
awk '/^ *```sh by-hand$/ { skip = 1; next } /^ *```sh$/ { take = 1; next } /^ *```/ { take = 0; skip = 0; next } take { print } skip { print "#left-out " $0 }' \
    "$here/docs/install.md" >"$root/root/project/steps.sh"

cat >"$root/usr/local/sbin/systemctl" <<'EOF'
#!/bin/bash
# A stand-in: starts what a unit file says, as the user that it says.
set -euo pipefail
start() {
    local unit=$1 template instance file
    case $unit in
        postgresql) pg_ctlcluster 15 main start; return ;;
        nginx) nginx; return ;;
        *.timer) test -e "/etc/systemd/system/$unit"; echo "(timer $unit is there; it is not run here)"; return ;;
    esac
    template=${unit%@*}; instance=${unit#*@}
    if [ "$template" = "$unit" ]; then file=/etc/systemd/system/$unit.service; else file=/etc/systemd/system/$template@.service; fi
    value() { sed -n "s/^$1=//p" "$file" | sed "s/%i/$instance/g"; }
    local user; user=$(value User)
    install -d -m 700 -o "$user" -g "$user" "/var/lib/$(value StateDirectory)"
    local settings=()
    while IFS= read -r line; do settings+=("$line"); done < <(grep -v '^#' "$(value EnvironmentFile)"; value Environment)
    local run=(env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin "${settings[@]}" runuser -u "$user" -- sh -c "cd '$(value WorkingDirectory)' && exec $(value ExecStart)")
    if [ "$(value Type)" = oneshot ]; then "${run[@]}"; else setsid "${run[@]}" >"/var/log/$unit.log" 2>&1 </dev/null & fi
}
case $1 in
    daemon-reload) ;;
    enable) shift 2; for unit in "$@"; do start "$unit"; done ;;
    start) start "$2" ;;
    reload) if [ -e /run/nginx.pid ] && kill -0 "$(cat /run/nginx.pid)" 2>/dev/null; then nginx -s reload; else nginx; fi ;;
    *) echo "systemctl $* is not known here" >&2; exit 1 ;;
esac
EOF
printf '#!/bin/sh\nexit 101\n' >"$root/usr/sbin/policy-rc.d" # No package starts anything by itself.
chmod 755 "$root/usr/local/sbin/systemctl" "$root/usr/sbin/policy-rc.d"

inside() { chroot "$root" env -i HOME=/root PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive "$@"; }

echo "== Step 1, with the network"
sed -n '/^apt-get/p' "$root/root/project/steps.sh" | inside sh -e >"$root/root/apt.log" 2>&1 || { tail "$root/root/apt.log" >&2; exit 1; }
inside apt-get install -y -qq iproute2 libicu72 >>"$root/root/apt.log" 2>&1 # The runtime's package would bring the last.

echo "== The other steps, on a loopback of their own"
{
    echo 'set -euo pipefail; cd /root/project; ip link set lo up'
    grep -v -e '^apt-get' -e '^#left-out' "$root/root/project/steps.sh" | sed "s|^nginx -t|install -d -m 700 /etc/ssl/tankside; openssl req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN=\$name -keyout /etc/ssl/tankside/key.pem -out /etc/ssl/tankside/fullchain.pem 2>/dev/null\n&|"
    cat <<'EOF'
echo "== What came of it"
curl -skf --resolve "$name:443:127.0.0.1" "https://$name/sign-in" | grep -q '<form' && echo "good   the sign-in page through nginx with TLS"
test "$(curl -s -o /dev/null -w '%{http_code} %{redirect_url}' -H "Host: $name" http://127.0.0.1/)" = "301 https://$name/" && echo "good   plain HTTP is sent on to HTTPS"
install -d /var/www/html/.well-known/acme-challenge && echo ours >/var/www/html/.well-known/acme-challenge/a-try
test "$(curl -s -H "Host: $name" http://127.0.0.1/.well-known/acme-challenge/a-try)" = ours && echo "good   a certificate can be renewed without stopping nginx"
grep -h -o 'https://[^ "]*/set-up/' /var/log/tankside@508?.log | head -n 1 | grep -q "https://$name/set-up/" && echo "good   a set-up link was printed"
stat -c 'good   %A %U %n' /var/backups/tankside/tankside-*.zip
stat -c 'good   %A %U:%G %n' /etc/tankside/tankside.env
EOF
} >"$root/root/project/all.sh"
status=0
unshare --net chroot "$root" env -i HOME=/root PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C.UTF-8 bash /root/project/all.sh || status=$?

if command -v systemd-analyze >/dev/null; then
    echo "== The unit files, read by systemd"
    units=$(mktemp -d)
    cp "$here/deploy/tankside@.service" "$units/tankside@5081.service"
    cp "$here"/deploy/tankside-backup.* "$units/"
    systemd-analyze verify "$units"/* && echo "good   systemd finds nothing to say" || status=1
    rm -r "$units"
fi
echo "== Not tried here"
sed -n 's/^#left-out /   /p' "$root/root/project/steps.sh"
exit "$status"
