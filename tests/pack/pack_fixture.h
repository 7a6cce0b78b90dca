// A small pack, written to a private folder, that tests damage one cell at a time; and a small domain beside it.
// Makers, lines and numbers are invented.
#pragma once

#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/pack/pack.h"
#include "core/store/sqlite.h"
#include "tests/scratch_folder.h"

namespace casebound::tests {

// Lamps and washer fluid. Its check refuses a lamp of more than 500 W.
class LampDomain : public Domain {
public:
    std::string_view title() const override { return "lamps"; }
    Vocabulary vocabulary() const override;
    std::string_view schema() const override;
    std::vector<RowFault> check(const Facts& facts, std::string_view pack) const override;
    mutable std::vector<std::string> asked;  // packs that check was asked about
};

using Files = std::map<std::string, std::string>;  // name in the folder, bytes

class PackFolder {
public:
    explicit PackFolder(const Files& files, const std::string& name = "yard", bool invented = true);
    const std::string& path() const { return folder_.path(); }
    void write(const std::string& name, const std::string& bytes) const { folder_.write(name, bytes); }
    std::string read(const std::string& name) const { return ScratchFolder::read(folder_.file(name)); }
    void replace(const std::string& name, const std::string& from,
                 const std::string& to) const;  // `from` must be there
    void describe() const;                      // brings the descriptor up to date

private:
    ScratchFolder folder_;
    std::string name_;
};

class CatalogFolder {
public:
    std::string path() const { return folder_.file("catalog.sqlite"); }
    std::string dump() const;  // every table as text
    std::string bytes() const { return ScratchFolder::read(path()); }
    std::int64_t integer(const std::string& sql) const;
    std::string text(const std::string& sql) const;

private:
    ScratchFolder folder_;
};

inline Vocabulary LampDomain::vocabulary() const {
    Attribute socket;
    socket.name = "socket";
    socket.title = "lamp socket";
    socket.choices = {"round", "square"};
    socket.how = "Look at the back of the lamp.";
    Attribute depth;
    depth.name = "depth";
    depth.title = "depth behind the lamp";
    depth.kind = ValueKind::number;
    depth.unit = "mm";
    depth.how = "Measure from the rim to the panel.";
    Attribute flicker;
    flicker.name = "flicker";
    flicker.title = "lamp flickers";
    flicker.kind = ValueKind::yes_no;
    flicker.finding = true;
    flicker.how = "Look.";
    return {{socket, depth, flicker},
            {{"lamp", "lamp", "each"}, {"washer-fluid", "washer fluid", "L"}},
            {{"head-lamp", "head lamp", "lamp", StandIns::may_be_offered},
             {"washer", "washer fluid", "washer-fluid", StandIns::may_be_offered}}};
}

inline std::string_view LampDomain::schema() const {
    return R"(-- Lamps.

-- What a lamp draws.
CREATE TABLE lamps_lamps (
  origin INTEGER PRIMARY KEY,
  group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),  -- the lamp
  power_w REAL NOT NULL CHECK (power_w > 0 AND power_w <= 10000),  -- power, W
  low_v REAL,  -- lowest voltage, V
  high_v REAL,  -- highest voltage, V
  pins INTEGER CHECK (pins BETWEEN 2 AND 9),  -- of the socket
  source TEXT NOT NULL REFERENCES sources (source),  -- where this comes from
  CHECK (low_v IS NULL OR high_v IS NULL OR low_v <= high_v)
) STRICT;
)";
}

inline std::vector<RowFault> LampDomain::check(const Facts& facts, std::string_view pack) const {
    asked.emplace_back(pack);
    std::vector<RowFault> faults;
    for (const auto& row : facts.rows("lamps_lamps"))
        if (row.origin.pack == pack && row.number("power_w").value_or(0) > 500)
            faults.push_back({row.origin, "power_w", "no lamp draws this much: write W"});
    return faults;
}

// Loaded as "lamps".
inline Plugins with(const Domain& domain) {
    Plugins plugins;
    plugins.domains.emplace_back("lamps", "in the test", domain, domain.vocabulary());
    return plugins;
}

inline const LampDomain& lamps() {
    static const LampDomain domain;
    return domain;
}

inline const Plugins& plugins() {
    static const Plugins all = with(lamps());
    return all;
}

inline Files yard() {
    return {
        {"sources.csv",
         "source,kind,title,edition,note\ns-made,invented,\"Made up for this test, 1st\",2026,\ns-label,measured,Label "
         "on the box,,\n"},
        {"attributes.csv",
         "attribute,title,kind,unit,tolerance,how,minutes,raised,dismantling,source\nbulkhead,bulkhead "
         "fitted,yes_no,,,Look behind the seats.,1,no,no,s-made\n"},
        {"lines.csv",
         "line,title,note,source\ntern,Tern 2.0,,s-made\nplover,Plover 2.6,with a bulkhead or not,s-made\n"},
        {"configurations.csv",
         "line,attribute_values,share,source\n"
         "tern,engine=2.0|2.2; drive=2wd; depth=38mm,2,s-made\n"
         "tern,engine=2.2; drive=4wd; depth=58mm,1,s-made\n"
         "plover,engine=2.6; drive=2wd|4wd; year=2003..2005; bulkhead=yes|no,,s-made\n"},
        {"items.csv",
         "item,kind,title,pack_quantity,withdrawn,source\n"
         "BW-1,lamp,Round lamp,1,,s-made\nBW-2,lamp,Square lamp,1,replaced by BW-1,s-made\nBW-3,lamp,Deep "
         "lamp,2,,s-label\n"
         "OIL-5,washer-fluid,\"Washer fluid, 5 L\",5,,s-label\nKIT-1,kit,Lamp kit,1,,s-made\n"},
        {"groups.csv",
         "group_key,kind,title,source\nround,lamp,round lamps,s-made\nsquare,lamp,square lamps,s-made\ndeep,lamp,deep "
         "lamps,s-made\n"
         "fluid,washer-fluid,washer fluids,s-made\nkits,kit,kits,s-made\n"},
        {"group_members.csv",
         "group_key,item,basis,source\nround,BW-1,same,s-made\nsquare,BW-2,approved,s-made\ndeep,BW-3,meets,s-"
         "made\nfluid,OIL-5,claimed,s-label\nkits,KIT-1,same,s-made\n"},
        {"applications.csv",
         "line,role,says,group_key,condition,quantity,note,withdrawn,source\n"
         "tern,head-lamp,fits,round,depth<=40mm,2,,,s-made\n"
         "tern,head-lamp,fits,deep,depth>40mm; drive=4wd,2,,,s-made\n"
         "tern,head-lamp,does_not_fit,square,,,\"rim too small, by eye\",,s-label\n"
         "plover,washer,fits,fluid,,3.5,,,s-made\n"
         "plover,head-lamp,none_needed,,bulkhead=yes; not drive=2wd,,,,s-made\n"
         "plover,head-lamp,fits,square,year=2004..; bulkhead=no,2,,mixed up with another,s-made\n"},
        {"stand_ins.csv",
         "offered,relation,wanted,condition,requirement,also_requires,difference,withdrawn,source\n"
         "round,supersedes,square,,,,,,s-made\ndeep,bolts_up_but,round,socket=round,,square|fluid,sticks "
         "out,,s-made\n"},
        {"kit_contents.csv", "kit,group_key,quantity,source\nKIT-1,round,2,s-made\nKIT-1,fluid,0.5,s-made\n"},
        {"jobs.csv", "job,title,minutes,source\nlamp-change,Change a lamp,20,s-made\n"},
        {"job_roles.csv",
         "job,role,reach,line,condition,reuse,note,source\nlamp-change,head-lamp,needs,,,never,,s-made\nlamp-change,"
         "washer,disturbs,tern,drive=4wd,by_design,,s-made\n"},
        {"stays_behind.csv",
         "role,line,condition,place,see,remove,count,source\nhead-lamp,tern,engine=2.2,the ring,look,pull,1,s-made\n"},
        {"cautions.csv", "job,line,condition,caution,source\nlamp-change,,,Let the lamp cool.,s-made\n"},
        {"lamps_lamps.csv",
         "group_key,power_w,low_v,high_v,pins,source\nround,55,11,14.5,2,s-made\nsquare,60,,,3,s-label\n"},
    };
}

// Refers to `yard`.
inline Files depot() {
    return {
        {"sources.csv", "source,kind,title,edition,note\nd-made,invented,Made up for this test,,\n"},
        {"items.csv", "item,kind,title,pack_quantity,withdrawn,source\nNK-9,lamp,Other lamp,1,,d-made\n"},
        {"group_members.csv", "group_key,item,basis,source\nround,NK-9,same,d-made\nround,BW-3,claimed,d-made\n"},
        {"applications.csv",
         "line,role,says,group_key,condition,quantity,note,withdrawn,source\ntern,head-lamp,fits,round,engine=2.0,2,,,"
         "d-made\nplover,head-lamp,fits,deep,bulkhead=no,,,,s-made\n"},
        {"stand_ins.csv",
         "offered,relation,wanted,condition,requirement,also_requires,difference,withdrawn,source\nround,supersedes,"
         "deep,,,kits,,,d-made\n"},
    };
}

inline PackFolder::PackFolder(const Files& files, const std::string& name, bool invented) : name_(name) {
    for (const auto& [file, bytes] : files) write(file, bytes);
    describe();
    if (invented) replace("datapackage.json", "\"invented\": false", "\"invented\": true");
}

inline void PackFolder::describe() const { new_pack(path(), name_, plugins()); }

inline void PackFolder::replace(const std::string& name, const std::string& from, const std::string& to) const {
    auto bytes = read(name);
    const auto at = bytes.find(from);
    if (at == std::string::npos) throw std::runtime_error(name + " has no `" + from + "`");
    write(name, bytes.replace(at, from.size(), to));
}

inline std::string CatalogFolder::dump() const {
    const Database catalog(path(), Database::Mode::read_only);
    std::string out;
    Statement tables(catalog, "SELECT name, sql FROM sqlite_master ORDER BY name");
    while (tables.step()) {
        out += tables.str(0) + ": " + tables.str(1) + "\n";
        if (tables.text(0).substr(0, 7) == "sqlite_" || tables.text(1).substr(0, 12) == "CREATE INDEX") continue;
        const auto columns = catalog.integer("SELECT count(*) FROM pragma_table_info('" + tables.str(0) + "')");
        Statement rows(catalog, "SELECT * FROM \"" + tables.str(0) + "\" ORDER BY 1, 2");
        while (rows.step()) {
            for (int i = 0; i < columns; ++i) out += (i ? "|" : "  ") + (rows.is_null(i) ? "NULL" : rows.str(i));
            out += "\n";
        }
    }
    return out;
}

inline std::int64_t CatalogFolder::integer(const std::string& sql) const {
    return Database(path(), Database::Mode::read_only).integer(sql);
}

inline std::string CatalogFolder::text(const std::string& sql) const {
    const Database catalog(path(), Database::Mode::read_only);
    Statement row(catalog, sql);
    return row.step() ? row.str(0) : "";
}

inline std::vector<std::string> texts(const std::vector<PackFault>& faults) {
    std::vector<std::string> lines;
    for (const auto& fault : faults) lines.push_back(fault.text());
    return lines;
}

inline std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const auto& line : lines) text += line + "\n";
    return text;
}

}  // namespace casebound::tests
