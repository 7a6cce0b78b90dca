#!/bin/sh
# A workbook in the hands of the real client: Calc opens it, in an English and a German locale, and saves it as .ods, .xlsx
# and .csv, and no cell differs.
. "$(dirname "$0")/scratch.sh"
casebound=$build/casebound
quietly "$casebound" pack load --reference
quietly "$casebound" pack new "$scratch/fleet.xlsx" --from "$source/seed-data/demo-fleet"
quietly "$casebound" pack check "$scratch/fleet.xlsx"

calc() { quietly soffice "-env:UserInstallation=file://$scratch/$locale" --headless --convert-to "$1" --outdir "$scratch/$locale-out" "$2"; }
for locale in en-US de-DE; do
  mkdir -p "$scratch/$locale/user"
  cat >"$scratch/$locale/user/registrymodifications.xcu" <<END
<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>$locale</value></prop></item>
</oor:items>
END
  out=$scratch/$locale-out
  for format in ods xlsx; do
    calc $format "$scratch/fleet.xlsx"
    quietly "$casebound" pack diff "$scratch/fleet.xlsx" "$out/fleet.$format"
    said 'No row differs'
    quietly "$casebound" pack check "$out/fleet.$format"
    said 'no fault'
  done

  # Every sheet as a file of its own, quoted and in UTF-8.
  calc 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1' "$scratch/fleet.xlsx"
  mkdir "$out/pack"
  for file in "$out"/fleet-*.csv; do
    sheet=${file##*/fleet-}
    case $sheet in pack.csv | words.csv) ;; *) mv "$file" "$out/pack/$sheet" ;; esac
  done
  quietly "$casebound" pack new "$out/pack"
  quietly "$casebound" pack diff "$source/seed-data/demo-fleet" "$out/pack"
  said 'No row differs'
done
