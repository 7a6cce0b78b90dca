#!/bin/sh
# The same CSV files through the sqlite3 shell's .import, with the same keys and look-ups, nothing checked:
# import_peer.sh FOLDER DATABASE. Prints the seconds it took, then the user and system seconds of the shell and of sqlite3.
set -eu
folder=$1
database=$2
rm -f "$database"
start=$(date +%s%N)
sqlite3 "$database" <<SQL
CREATE TABLE sources (source TEXT UNIQUE, kind TEXT, title TEXT, edition TEXT, note TEXT);
CREATE TABLE lines (line TEXT UNIQUE, title TEXT, note TEXT, source TEXT);
CREATE TABLE configurations (line TEXT, attribute_values TEXT, share REAL, source TEXT);
CREATE TABLE items (item TEXT UNIQUE, kind TEXT, title TEXT, pack_quantity REAL, withdrawn TEXT, source TEXT);
CREATE TABLE groups (group_key TEXT UNIQUE, kind TEXT, title TEXT, source TEXT);
CREATE TABLE group_members (group_key TEXT, item TEXT, basis TEXT, source TEXT, UNIQUE (group_key, item));
CREATE TABLE applications (line TEXT, role TEXT, says TEXT, group_key TEXT, condition TEXT, quantity REAL, note TEXT, withdrawn TEXT, source TEXT);
.mode csv
.import --skip 1 $folder/sources.csv sources
.import --skip 1 $folder/lines.csv lines
.import --skip 1 $folder/configurations.csv configurations
.import --skip 1 $folder/items.csv items
.import --skip 1 $folder/groups.csv groups
.import --skip 1 $folder/group_members.csv group_members
.import --skip 1 $folder/applications.csv applications
CREATE INDEX configurations_by_line ON configurations (line);
CREATE INDEX members_by_item ON group_members (item);
CREATE INDEX applications_by_line ON applications (line, role, says, group_key, condition, quantity, source);
SQL
end=$(date +%s%N)
echo "{\"seconds\":$(echo "scale=3; ($end - $start) / 1000000000" | bc)}"
times
