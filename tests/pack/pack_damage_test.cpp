// One damaged pack after another: each is refused with the right words at the right place, and the catalog stays
// byte for byte as it was.
#include <catch2/catch.hpp>

#include "tests/pack/pack_fixture.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

struct Damage {
    std::string claim, file, from, to;
    std::vector<std::string> faults;  // each expected fault begins so, in order
};

bool begins(const std::string& text, const std::string& start) { return text.substr(0, start.size()) == start; }

// The sound pack is loaded first, so that a damaged one would replace it.
void check_damage(const Damage& damage) {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    REQUIRE(joined(texts(load_pack(pack.path(), catalog.path(), plugins()).faults)).empty());
    const auto before = catalog.bytes();
    pack.replace(damage.file, damage.from, damage.to);
    const auto report = load_pack(pack.path(), catalog.path(), plugins());
    const auto found = texts(report.faults);
    INFO(damage.claim << "\n" << joined(found));
    CHECK(found.size() == damage.faults.size());
    for (std::size_t i = 0; i < std::min(found.size(), damage.faults.size()); ++i) {
        INFO("wanted " << damage.faults[i]);
        CHECK(begins(found[i], damage.faults[i]));
    }
    CHECK(catalog.bytes() == before);
}

void check_all(const std::vector<Damage>& damages) {
    for (const auto& damage : damages) check_damage(damage);
}

}  // namespace

TEST_CASE("a damaged cell is refused at its place and changes nothing") {
    check_all({
        {"required",
         "items.csv",
         "BW-1,lamp,Round lamp",
         "BW-1,lamp,",
         {"items.csv:2:3: title: empty: write as on the label"}},
        {"choice, near",
         "group_members.csv",
         "BW-2,approved",
         "BW-2,aproved",
         {"group_members.csv:3:3: basis: `aproved` is not one of its values: did you mean approved? write same, "
          "approved,"}},
        {"choice, far",
         "sources.csv",
         "s-label,measured",
         "s-label,rumour",
         {"sources.csv:3:2: kind: `rumour` is not one of its values: write law, standard, maker,"}},
        {"no number",
         "items.csv",
         "Deep lamp,2",
         "Deep lamp,two",
         {"items.csv:4:4: pack_quantity: `two` is not a number: write digits and a decimal point, without a unit"}},
        {"unit in a number", "jobs.csv", "lamp,20", "lamp,20 min", {"jobs.csv:2:3: minutes: `20 min` is not a number"}},
        {"decimal comma",
         "kit_contents.csv",
         "fluid,0.5",
         "fluid,\"0,5\"",
         {"kit_contents.csv:3:3: quantity: `0,5` is not a number: write 0.5, with a decimal point"}},
        {"thousands",
         "jobs.csv",
         "lamp,20",
         "lamp,\"1,200\"",
         {"jobs.csv:2:3: minutes: `1,200` is not a number: write 1200, without a thousands separator"}},
        {"infinity", "jobs.csv", "lamp,20", "lamp,inf", {"jobs.csv:2:3: minutes: `inf` is not a number"}},
        {"too small",
         "configurations.csv",
         "38mm,2,",
         "38mm,0,",
         {"configurations.csv:2:3: share: 0 must be more than 0: relative number built"}},
        {"too large for the domain",
         "lamps_lamps.csv",
         "55,11",
         "10001,11",
         {"lamps_lamps.csv:2:2: power_w: 10001 must be at most 10000: power, W"}},
        {"no whole number",
         "stays_behind.csv",
         "pull,1,",
         "pull,1.5,",
         {"stays_behind.csv:2:7: count: `1.5` must be a whole number"}},
        {"outside BETWEEN",
         "lamps_lamps.csv",
         "14.5,2,",
         "14.5,1,",
         {"lamps_lamps.csv:2:5: pins: 1 must be at least 2"}},
        {"a rule over a row",
         "lamps_lamps.csv",
         "11,14.5",
         "15,14.5",
         {"lamps_lamps.csv:2: the row breaks the rule `low_v IS NULL OR high_v IS NULL OR low_v <= high_v`"}},
        {"a rule of core over a row",
         "stand_ins.csv",
         "round,supersedes,square",
         "round,excludes,round",
         {"stand_ins.csv:2: the row breaks the rule `offered <> wanted`"}},
        {"a condition needs a line",
         "cautions.csv",
         "lamp-change,,,",
         "lamp-change,,engine=2.2,",
         {"cautions.csv:2: the row breaks the rule `condition IS NULL OR line IS NOT NULL`"}},
        {"blank in a key",
         "items.csv",
         "OIL-5",
         "OIL 5",
         {"group_members.csv:5:2: item: `OIL-5` is not in items",
          "items.csv:5:1: item: `OIL 5`: a blank has no place in a key"}},
        {"long key",
         "items.csv",
         "OIL-5",
         std::string(121, 'X'),
         {"group_members.csv:5:2", "items.csv:5:1: item: `XXXXXXXXXX"}},
        {"blank after a key",
         "kit_contents.csv",
         "KIT-1,round",
         "KIT-1 ,round",
         {"kit_contents.csv:2:1: kit: `KIT-1 ` begins or ends with a blank: delete it",
          "kit_contents.csv:2:1: kit: `KIT-1 ` is not in items"}},
        {"no-break space in a key",
         "kit_contents.csv",
         "KIT-1,round",
         "KIT\xC2\xA0"
         "1,round",
         {"kit_contents.csv:2:1: kit: `KIT\\xC2\\xA0"
          "1` holds a no-break space",
          "kit_contents.csv:2:1: kit: `KIT\\xC2\\xA0"
          "1` is not in items"}},
        {"look-alike letter",
         "jobs.csv",
         "lamp-change",
         "lamp-\xD1\x81hange",
         {"cautions.csv:2:1: job: ", "job_roles.csv:2:1: job: ", "job_roles.csv:3:1: job: ",
          "jobs.csv:2:1: job: `lamp-\xD1\x81hange`: `\xD1\x81...` has no place in a key"}},
    });
}

TEST_CASE("what a spreadsheet does to a key is refused, and to other text it is noted") {
    check_all({
        {"scientific",
         "items.csv",
         "OIL-5,",
         "2.31E+13,",
         {"group_members.csv:5:2",
          "items.csv:5:1: item: `2.31E+13` looks like a number that a spreadsheet has shortened"}},
        {"day and month",
         "items.csv",
         "OIL-5,",
         "2-Sep,",
         {"group_members.csv:5:2", "items.csv:5:1: item: `2-Sep` looks like a date that a spreadsheet has made"}},
        {"month and year",
         "items.csv",
         "OIL-5,",
         "Sep-02,",
         {"group_members.csv:5:2", "items.csv:5:1: item: `Sep-02` looks like a date"}},
        {"slashes",
         "items.csv",
         "OIL-5,",
         "2/9/2026,",
         {"group_members.csv:5:2", "items.csv:5:1: item: `2/9/2026` looks like a date"}},
        {"broken formula",
         "items.csv",
         "OIL-5,",
         "#REF!,",
         {"group_members.csv:5:2", "items.csv:5:1: item: `#REF!` is what a spreadsheet leaves of a broken formula"}},
        {"unknown name",
         "items.csv",
         "OIL-5,",
         "#NAME?,",
         {"group_members.csv:5:2", "items.csv:5:1: item: `#NAME?` is what a spreadsheet leaves"}},
        {"thousands in a key",
         "items.csv",
         "OIL-5,",
         "\"1,234\",",
         {"group_members.csv:5:2", "items.csv:5:1: item: `1,234` holds a thousands separator"}},
    });
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    pack.replace("sources.csv", "2026,", "2-Sep,#REF!");
    pack.replace("lines.csv", "Plover 2.6", " Plover 2.6");
    pack.replace("items.csv", "OIL-5", "45689");
    pack.replace("group_members.csv", "OIL-5", "45689");
    const auto report = load_pack(pack.path(), catalog.path(), plugins());
    CHECK(joined(texts(report.faults)).empty());
    REQUIRE(report.warnings.size() == 4);
    CHECK(begins(report.warnings[0].text(),
                 "items.csv:5:1: item: `45689` is a bare number among other keys, as a date turned into one would be"));
    CHECK(begins(report.warnings[1].text(), "lines.csv:3:2: title: ` Plover 2.6` begins or ends with a blank"));
    CHECK(begins(report.warnings[2].text(), "sources.csv:2:4: edition: `2-Sep` looks like a date"));
    CHECK(begins(report.warnings[3].text(), "sources.csv:2:5: note: `#REF!` is what a spreadsheet leaves"));
}

TEST_CASE("a key stands once, and every reference is met") {
    check_all({
        {"twice",
         "items.csv",
         "BW-2,lamp",
         "BW-1,lamp",
         {"group_members.csv:3:2: item: `BW-2` is not in items of this pack or another: did you mean BW-1?",
          "items.csv:3:1: item: `BW-1` is on line 2 already: a key stands once"}},
        {"two together",
         "group_members.csv",
         "square,BW-2",
         "round,BW-1",
         {"group_members.csv:3:1: group_key: group_key, item together are on line 2 already: round,BW-1"}},
        {"unknown source",
         "jobs.csv",
         "20,s-made",
         "20,s-mode",
         {"jobs.csv:2:4: source: `s-mode` is not in sources of this pack or another: did you mean s-made?"}},
        {"unknown line",
         "stays_behind.csv",
         "head-lamp,tern",
         "head-lamp,gannet",
         {"stays_behind.csv:2:2: line: `gannet` is not in lines of this pack or another: add it to lines.csv, or "
          "correct it"}},
        {"unknown group",
         "applications.csv",
         "fits,deep",
         "fits,depp",
         {"applications.csv:3:4: group_key: `depp` is not in groups of this pack or another: did you mean deep?"}},
        {"unknown job",
         "cautions.csv",
         "lamp-change,",
         "lamp-charge,",
         {"cautions.csv:2:1: job: `lamp-charge` is not in jobs of this pack or another: did you mean lamp-change?"}},
        {"unknown group of a domain's row",
         "lamps_lamps.csv",
         "square,60",
         "sqare,60",
         {"lamps_lamps.csv:3:1: group_key: `sqare` is not in groups of this pack or another: did you mean square?"}},
        {"unknown group in a list",
         "stand_ins.csv",
         "square|fluid",
         "square|flud",
         {"stand_ins.csv:3:6: also_requires: `flud` is not in groups of this pack or another: did you mean fluid?"}},
        {"unknown role",
         "applications.csv",
         "plover,washer,",
         "plover,wahser,",
         {"applications.csv:5:2: role: `wahser` is not a role: did you mean washer?"}},
        {"unknown item kind",
         "groups.csv",
         "deep,lamp",
         "deep,lampp",
         {"groups.csv:4:2: kind: `lampp` is not an item kind: did you mean lamp?"}},
    });
}

TEST_CASE("an application, a member, a stand-in and a kit must make sense") {
    check_all({
        {"role takes another kind",
         "applications.csv",
         "plover,washer,fits,fluid,,3.5",
         "plover,washer,fits,round,,3",
         {"applications.csv:5:4: group_key: round is of kind lamp, but the role washer takes washer-fluid: correct the "
          "group or the role"}},
        {"fits without a group",
         "applications.csv",
         "fits,round",
         "fits,",
         {"applications.csv:2:4: group_key: empty: name the group that fits or does not, or write none_needed"}},
        {"none needed with a group",
         "applications.csv",
         "none_needed,,",
         "none_needed,deep,",
         {"applications.csv:6:4: group_key: none_needed says that there is no such place"}},
        {"half a lamp",
         "applications.csv",
         "depth<=40mm,2",
         "depth<=40mm,1.5",
         {"applications.csv:2:6: quantity: 1.5 of something counted by the piece: write a whole number"}},
        {"member of another kind",
         "group_members.csv",
         "fluid,OIL-5",
         "fluid,BW-3",
         {"group_members.csv:5:2: item: BW-3 is of kind lamp, but group fluid is of kind washer-fluid: a group holds "
          "one kind"}},
        {"a kit that is none",
         "kit_contents.csv",
         "KIT-1,round",
         "BW-1,round",
         {"kit_contents.csv:2:1: kit: BW-1 is of kind lamp: only an item of kind kit has contents"}},
        {"bolts up without a difference",
         "stand_ins.csv",
         "sticks out",
         "",
         {"stand_ins.csv:3:7: difference: empty: bolts_up_but must say what works differently"}},
        {"kit in itself",
         "kit_contents.csv",
         "KIT-1,round",
         "KIT-1,kits",
         {"kit_contents.csv:2:2: group_key: a kit that contains itself: KIT-1 -> kits -> KIT-1: take out the row that "
          "is wrong"}},
        {"loop of two",
         "stand_ins.csv",
         "deep,bolts_up_but,round,socket=round,,square|fluid,sticks out",
         "square,supersedes,round,,,,",
         {"stand_ins.csv:2:1: offered: a loop of supersedes: round -> square -> round: take out the statement that is "
          "wrong"}},
        {"loop of three",
         "stand_ins.csv",
         "deep,bolts_up_but,round,socket=round,,square|fluid,sticks out",
         "square,supersedes,deep,,,,,,s-made\ndeep,supersedes,round,,,,",
         {"stand_ins.csv:2:1: offered: a loop of supersedes: round -> square -> deep -> round"}},
        {"invented without saying so",
         "datapackage.json",
         "\"invented\": true",
         "\"invented\": false",
         {"sources.csv:2:2: kind: the pack holds invented data: write \"invented\": true"}},
        {"attribute not in snake case",
         "attributes.csv",
         "bulkhead,bulk",
         "BulkHead,bulk",
         {"applications.csv:6:5: condition: at character 1: `bulkhead` is not an attribute",
          "applications.csv:7:5: condition: at character 14: `bulkhead` is not an attribute",
          "attributes.csv:2:1: attribute: `BulkHead` is not snake_case",
          "configurations.csv:4:2: attribute_values: at character 45: `bulkhead` is not an attribute"}},
        {"unit of a choice",
         "attributes.csv",
         "yes_no,,",
         "yes_no,mm,",
         {"attributes.csv:2:4: unit: `mm`: only a number has a unit"}},
        {"unknown unit",
         "attributes.csv",
         "bulkhead,bulkhead fitted,yes_no,,,",
         "gap,gap,number,furlong,,x,1,no,no,s-made\nbulkhead,bulkhead fitted,yes_no,,,",
         {"attributes.csv:2:4: unit: `furlong` is not a known unit"}},
        {"attribute of another meaning",
         "attributes.csv",
         "bulkhead,bulkhead fitted,yes_no,,,",
         "depth,depth,choice,,,x,1,no,no,s-made\nbulkhead,bulkhead fitted,yes_no,,,",
         {"attributes.csv:2:1: attribute: attribute `depth` of pack yard is already declared otherwise by lamps"}},
        {"domain's own check",
         "lamps_lamps.csv",
         "square,60",
         "square,600",
         {"lamps_lamps.csv:3:2: power_w: no lamp draws this much: write W"}},
    });
}

TEST_CASE("a withdrawn row is checked like any other") {
    check_damage(
        {"withdrawn",
         "applications.csv",
         "year=2004..; bulkhead=no",
         "year=1999; bulkhead=no",
         {"applications.csv:7:5: condition: no configuration of plover has year=1999: there is 2003, 2004, 2005"}});
}

TEST_CASE("a condition must be one that a configuration of its line can meet") {
    check_all({
        {"no comparison",
         "applications.csv",
         "depth<=40mm",
         "depth 40mm",
         {"applications.csv:2:5: condition: at character 1: `depth 40mm` has no comparison"}},
        {"unknown attribute",
         "applications.csv",
         "depth<=40mm",
         "dept<=40mm",
         {"applications.csv:2:5: condition: at character 1: `dept` is not an attribute: did you mean depth?"}},
        {"attribute of another line",
         "applications.csv",
         "depth<=40mm",
         "bulkhead=no",
         {"applications.csv:2:5: condition: bulkhead is not an attribute of tern: its configurations give depth, "
          "drive, engine"}},
        {"value that does not occur",
         "applications.csv",
         "depth<=40mm",
         "engine=2.6",
         {"applications.csv:2:5: condition: no configuration of tern has engine=2.6: there is 2.0, 2.2"}},
        {"one of two values does not occur",
         "applications.csv",
         "depth<=40mm",
         "engine=2.2|2.6",
         {"applications.csv:2:5: condition: no configuration of tern has engine=2.6: there is 2.0, 2.2"}},
        {"number that does not occur",
         "applications.csv",
         "depth<=40mm",
         "depth>60mm",
         {"applications.csv:2:5: condition: no configuration of tern has depth>60mm: there is 38 mm, 58 mm"}},
        {"excluded value that does not occur",
         "applications.csv",
         "not drive=2wd",
         "not drive=6wd",
         {"applications.csv:6:5: condition: no configuration of plover has drive=6wd: there is 2wd, 4wd"}},
        {"values that never meet",
         "applications.csv",
         "depth>40mm; drive=4wd",
         "depth>40mm; drive=2wd",
         {"applications.csv:3:5: condition: no configuration of tern meets this: each value occurs, but never all "
          "together"}},
        {"a range that holds nothing",
         "applications.csv",
         "depth<=40mm",
         "depth>40mm; depth<50mm",
         {"applications.csv:2:5: condition: no configuration of tern meets this"}},
        {"wrong unit",
         "applications.csv",
         "depth<=40mm",
         "depth<=40kg",
         {"applications.csv:2:5: condition: at character 1: "}},
        {"finding",
         "applications.csv",
         "depth<=40mm",
         "flicker=yes",
         {"applications.csv:2:5: condition: at character 1: flicker is a finding about trouble"}},
        {"condition of a job",
         "job_roles.csv",
         "tern,drive=4wd",
         "plover,drive=6wd",
         {"job_roles.csv:3:5: condition: no configuration of plover has drive=6wd"}},
        {"condition without a line",
         "stand_ins.csv",
         "socket=round",
         "socket=oval",
         {"stand_ins.csv:3:4: condition: at character 1: socket: `oval` is not one of round, square"}},
        {"configurations with other attributes",
         "configurations.csv",
         "engine=2.2; drive=4wd; depth=58mm",
         "engine=2.2; drive=4wd",
         {"applications.csv:3:5: condition: no configuration of tern has depth>40mm: there is 38 mm",
          "configurations.csv:3:2: attribute_values: gives drive, engine, but line 2 gives depth, drive, engine: every "
          "configuration of a line"}},
        {"configuration twice",
         "configurations.csv",
         "engine=2.2; drive=4wd; depth=58mm,1,s-made",
         "engine=2.2; drive=4wd; depth=58mm,1,s-made\ntern,engine=2.2|2.3; drive=4wd; depth=58mm,1,s-made",
         {"configurations.csv:4:2: attribute_values: a configuration of it stands on line 3 already: each is given "
          "once"}},
        {"range of a choice",
         "configurations.csv",
         "engine=2.6;",
         "engine=2.6..2.9;",
         {"configurations.csv:4:2: attribute_values: at character 1: engine: only years and months may be a range"}},
        {"open range",
         "configurations.csv",
         "year=2003..2005",
         "year=2003..",
         {"configurations.csv:4:2: attribute_values: at character 28: year: a configuration needs both ends of a "
          "range"}},
        {"value of no choice",
         "configurations.csv",
         "bulkhead=yes|no",
         "bulkhead=maybe",
         {"configurations.csv:4:2: attribute_values: at character "}},
    });
}

TEST_CASE("damaged bytes of a file are refused with their line and cell") {
    check_all({
        {"byte-order mark",
         "lines.csv",
         "line,title",
         "\xEF\xBB\xBFline,title",
         {"lines.csv:1:1: line: begins with a byte-order mark: save it as UTF-8 without one"}},
        {"not UTF-8", "lines.csv", "Plover 2.6", "Pl\xF6ver 2.6", {"lines.csv:3:2: title: byte F6 is not UTF-8"}},
        {"NUL", "lines.csv", "Plover 2.6", std::string("Plo\0er", 6), {"lines.csv:3:2: title: a NUL byte"}},
        {"lone carriage return",
         "lines.csv",
         "Tern 2.0,,s-made\n",
         "Tern 2.0,,s-made\r",
         {"applications.csv:5:1: line: `plover`", "applications.csv:6:1: line: `plover`",
          "applications.csv:7:1: line: `plover`", "configurations.csv:4:1: line: `plover`",
          "lines.csv:2:4: source: a carriage return without a line feed"}},
        {"open quote",
         "jobs.csv",
         "Change a lamp,20,s-made\n",
         "\"Change a lamp,20,s-made\n",
         {"cautions.csv:2:1: job: ", "job_roles.csv:2:1: job: ", "job_roles.csv:3:1: job: ",
          "jobs.csv:2:2: title: a quote is opened here and never closed"}},
        {"quote inside",
         "lines.csv",
         "Plover 2.6",
         "Plover 2\"6",
         {"lines.csv:3:2: title: a quote inside the cell: write it twice"}},
        {"line break in a cell",
         "lines.csv",
         "Plover 2.6",
         "\"Plover\n2.6\"",
         {"lines.csv:3:2: title: a line break inside the cell"}},
        {"large cell",
         "lines.csv",
         "Plover 2.6",
         std::string(70'000, 'x'),
         {"lines.csv:3:2: title: a cell of more than 64 KB"}},
        {"too few cells",
         "lines.csv",
         "Plover 2.6,with a bulkhead or not,s-made",
         "Plover 2.6,s-made",
         {"lines.csv:3: 3 cells, 4 are wanted: add the missing commas"}},
        {"too many cells",
         "lines.csv",
         "Plover 2.6",
         "Plover, 2.6",
         {"lines.csv:3: 5 cells, 4 are wanted: put quotes round a cell that holds a comma"}},
        {"empty line", "lines.csv", "\nplover", "\n\nplover", {"lines.csv:3: an empty line: delete it"}},
        {"row of commas", "lines.csv", "\nplover", "\n,,,\nplover", {"lines.csv:3: a row without content: delete it"}},
    });
    const CatalogFolder catalog;
    auto files = yard();
    for (auto& [name, bytes] : files) {
        std::string crlf;
        for (const char c : bytes) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
        bytes = crlf;
    }
    CHECK(joined(texts(load_pack(PackFolder(files).path(), catalog.path(), plugins()).faults)).empty());
}

TEST_CASE("a header that is not the table's is refused, with the column that was meant") {
    check_all({
        {"misspelt",
         "jobs.csv",
         "job,title,minutes",
         "job,titel,minutes",
         {"jobs.csv:1:2: `titel` is not a column of jobs: did you mean title?"}},
        {"capitals",
         "jobs.csv",
         "job,title,minutes",
         "Job,Title,Minutes",
         {"jobs.csv:1:1: `Job` is not a column of jobs: did you mean job?", "jobs.csv:1:2: `Title`",
          "jobs.csv:1:3: `Minutes`"}},
        {"missing",
         "jobs.csv",
         "job,title,minutes,source\nlamp-change,Change a lamp,20",
         "job,title,source\nlamp-change,Change a lamp",
         {"jobs.csv:1: the column minutes is missing: the header must be job,title,minutes,source"}},
        {"extra",
         "jobs.csv",
         "minutes,source",
         "minutes,source,colour",
         {"jobs.csv:1:5: `colour` is not a column of jobs: delete it; the header must be"}},
        {"twice",
         "jobs.csv",
         "job,title,minutes,source",
         "job,title,title,source",
         {"jobs.csv:1: the column minutes is missing", "jobs.csv:1:3: the column `title` is there twice: delete one"}},
        {"order",
         "jobs.csv",
         "job,title,minutes,source",
         "title,job,minutes,source",
         {"jobs.csv:1:1: the columns are in another order: the header must be job,title,minutes,source"}},
        {"semicolons",
         "jobs.csv",
         "job,title,minutes,source",
         "job;title;minutes;source",
         {"jobs.csv:1:1: the cells are not separated by commas"}},
        {"data where the header belongs",
         "jobs.csv",
         "job,title,minutes,source\n",
         "",
         {"jobs.csv:1:1: the first line is not the header: it must be job,title,minutes,source"}},
        {"no header",
         "jobs.csv",
         "job,title,minutes,source\nlamp-change,Change a lamp,20,s-made\n",
         "",
         {"jobs.csv: it has no header: its first line must be job,title,minutes,source"}},
    });
}

TEST_CASE("a descriptor that does not fit its folder is refused") {
    check_all({
        {"not JSON", "datapackage.json", "\"title\": ", "\"title\" ", {"datapackage.json:5:16: not JSON: "}},
        {"no list",
         "datapackage.json",
         "\"resources\": [",
         "\"resources\": 7, \"x\": [",
         {"datapackage.json: resources: it is number: write a list"}},
        {"wrong type",
         "datapackage.json",
         "\"version\": \"0.1.0\"",
         "\"version\": 1",
         {"datapackage.json: version: it is number: write a text in quotes"}},
        {"invented must be yes or no",
         "datapackage.json",
         "\"invented\": true",
         "\"invented\": \"yes\"",
         {"datapackage.json: invented: it is string: write true or false", "sources.csv:2:2"}},
        {"name",
         "datapackage.json",
         "\"name\": \"yard\"",
         "\"name\": \"My Yard\"",
         {"datapackage.json: name: `My Yard`: write at most 64 lower-case letters"}},
        {"hash",
         "datapackage.json",
         "\"format\": \"csv\"",
         "\"hash\": \"md5:1\", \"format\": \"csv\"",
         {"datapackage.json: resources[0].hash: it must be sha256: and 64 digits"}},
        {"other separator",
         "datapackage.json",
         "\"delimiter\": \",\"",
         "\"delimiter\": \";\"",
         {"datapackage.json: resources[0].dialect.delimiter: `;`: a pack's files are ,"}},
        {"other encoding",
         "datapackage.json",
         "\"encoding\": \"utf-8\"",
         "\"encoding\": \"latin-1\"",
         {"datapackage.json: resources[0].encoding: `latin-1`: a pack's files are utf-8"}},
        {"wrong size",
         "datapackage.json",
         "\"format\": \"csv\"",
         "\"bytes\": 3, \"format\": \"csv\"",
         {"sources.csv: changed since it was sealed (118 bytes, 3 are recorded): run `casebound pack check --seal`"}},
        {"unknown table",
         "datapackage.json",
         "\"name\": \"jobs\"",
         "\"name\": \"jebs\"",
         {"cautions.csv:2:1",
          "datapackage.json: resources[10].name: `jebs` is not a table of a pack: did you mean jobs?",
          "datapackage.json: resources[10].path: `jobs.csv`: the file of table jebs is called jebs.csv",
          "job_roles.csv:2:1", "job_roles.csv:3:1"}},
        {"out of the folder",
         "datapackage.json",
         "\"path\": \"cautions.csv\"",
         "\"path\": \"../cautions.csv\"",
         {"cautions.csv: it lies in the folder",
          "datapackage.json: resources[13].path: `../cautions.csv` leads out of the folder: write cautions.csv"}},
        {"absolute",
         "datapackage.json",
         "\"path\": \"cautions.csv\"",
         "\"path\": \"/etc/passwd\"",
         {"cautions.csv: it lies in the folder",
          "datapackage.json: resources[13].path: `/etc/passwd`: a pack's files lie in its own folder"}},
        {"address",
         "datapackage.json",
         "\"path\": \"cautions.csv\"",
         "\"path\": \"https://example.org/cautions.csv\"",
         {"cautions.csv: it lies in the folder",
          "datapackage.json: resources[13].path: `https://example.org/cautions.csv`: a pack's files lie in its own "
          "folder"}},
        {"listed twice",
         "datapackage.json",
         "\"name\": \"cautions\"",
         "\"name\": \"sources\"",
         {"datapackage.json: resources[13].name: `sources` is listed twice: take one out"}},
    });
}

TEST_CASE("files that are missing, not listed, or not files are refused") {
    const CatalogFolder catalog;
    const auto faults_after = [&](auto change) {
        const PackFolder pack(yard());
        change(pack);
        return joined(texts(load_pack(pack.path(), catalog.path(), plugins()).faults));
    };
    namespace fs = std::filesystem;
    CHECK_THAT(faults_after([](const PackFolder& pack) { fs::remove(pack.path() + "/cautions.csv"); }),
               Catch::Equals("datapackage.json: resources[13].path: cautions.csv is not in the folder: put it there, "
                             "or take it out of the descriptor\n"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("extra.csv", "a\n"); }),
               Catch::StartsWith("extra.csv: it lies in the folder but the descriptor does not list it"));
    CHECK_THAT(faults_after([](const PackFolder& pack) {
                   fs::rename(pack.path() + "/cautions.csv", pack.path() + "/kept.txt");
                   fs::create_symlink("kept.txt", pack.path() + "/cautions.csv");
               }),
               Catch::StartsWith("datapackage.json: resources[13].path: cautions.csv is a symbolic link"));
    CHECK_THAT(faults_after([](const PackFolder& pack) {
                   fs::remove(pack.path() + "/cautions.csv");
                   fs::create_directory(pack.path() + "/cautions.csv");
               }),
               Catch::StartsWith("datapackage.json: resources[13].path: cautions.csv is not a regular file"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("datapackage.json", std::string(100'000, '[')); }),
               Catch::StartsWith("datapackage.json: nested more than 32 deep"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("datapackage.json", "[]"); }),
               Catch::StartsWith("datapackage.json: it is array: a descriptor is an object"));
    CHECK_THAT(faults_after([](const PackFolder& pack) {
                   pack.write("datapackage.json", "\"" + std::string(5'000'000, 'x') + "\"");
               }),
               Catch::StartsWith("datapackage.json: larger than"));
    CHECK_THAT(faults_after([](const PackFolder& pack) { pack.write("datapackage.json", ""); }),
               Catch::StartsWith("datapackage.json:1:1: not JSON"));
    CHECK_THROWS_WITH(load_pack(PackFolder(yard()).path() + "/none", catalog.path(), plugins()),
                      Catch::Contains("no such folder"));
}

TEST_CASE("at most 1,000 faults are listed, and the rest are counted") {
    auto files = yard();
    for (int i = 0; i < 1500; ++i) files["jobs.csv"] += ",,,\n";
    const CatalogFolder catalog;
    const auto report = load_pack(PackFolder(files).path(), catalog.path(), plugins());
    REQUIRE(report.faults.size() == 1001);
    CHECK(report.faults.back().text() == "500 more faults not listed: mend these first");
}
