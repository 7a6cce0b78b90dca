#!/bin/sh
# Pages under load: page_load.sh CASEBOUND VEHICLE, with the shop and catalog of CASEBOUND_HOME. The server runs on one core
# and wrk on another; beside what wrk counts stands the server's own time a request, which a busy machine changes less. The
# style sheet is what the server takes for a reply that nobody has to work out.
set -eu
casebound=$1
vehicle=$2
port=18417
seconds=5
said=$(mktemp)
taskset -c 0 "$casebound" page --port $port >"$said" 2>&1 &
server=$!
trap 'kill $server 2>/dev/null; rm -f "$said"' EXIT
for try in $(seq 50); do curl -s -o /dev/null http://127.0.0.1:$port/ && break || sleep 0.2; done
ticks() { awk '{print $14 + $15}' /proc/$server/stat; }
echo "== pages under load, a core for the server"
for page in /style.css / "/vehicle/$vehicle"; do
  curl -s -o /dev/null "http://127.0.0.1:$port$page"
  before=$(ticks)
  counted=$(taskset -c 1 wrk -t1 -c4 -d${seconds}s "http://127.0.0.1:$port$page")
  after=$(ticks)
  asked=$(echo "$counted" | awk '/requests in/ {print $1}')
  echo "$page: $(echo "$counted" | awk '/Requests.sec/ {print $2}') requests a second; $(( (after - before) * 1000000 / $(getconf CLK_TCK) / asked )) us of the server's time each"
done
awk '/VmHWM/ {print "memory of the server at most: " $2 " kB"}' /proc/$server/status
