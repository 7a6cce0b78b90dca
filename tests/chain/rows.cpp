#include "tests/chain/rows.h"

#include <array>
#include <sstream>

#include "tests/chain/subject.h"

namespace chain {

namespace {

constexpr std::array<const char*, 5> attributes{"rig_frame", "rig_made", "rig_depth", "rig_colour", "rig_noise"};
constexpr std::array<const char*, 5> parts{"ring", "cover", "valve", "oil", "kit"};
constexpr std::array<const char*, places> place_names{"ring-left", "ring-right", "cover-place", "valve-place",
                                                      "oil-fill"};
constexpr std::array<const char*, 4> bases{"same", "approved", "meets", "claimed"};
constexpr std::array<const char*, 3> verdict_words{"fits", "does_not_fit", "none_needed"};
constexpr std::array<const char*, 4> relations{"supersedes", "stands_in_if", "bolts_up_but", "excludes"};
constexpr std::array<const char*, 4> reaches{"needs", "consumes", "disturbs", "look_first"};
constexpr std::array<const char*, 7> kinds{"law",    "standard", "maker", "measured", "common_practice",
                                           "memory", "invented"};

template <class Names, class At> const char* name(const Names& names, At at) {
    return names[static_cast<std::size_t>(at)];
}

std::string source_key(int source) { return sources()[static_cast<std::size_t>(source)].key; }

std::string number(double value) {
    std::ostringstream text;
    text << value;
    return text.str();
}

// Months that follow each other are a range: of alternatives each must occur on the line.
std::string joined(const std::set<int>& values, int attribute) {
    const auto& names = values_of(attribute);
    if (attribute == made && values.size() > 1 &&
        *values.rbegin() - *values.begin() + 1 == static_cast<int>(values.size()))
        return names[static_cast<std::size_t>(*values.begin())] + ".." +
               names[static_cast<std::size_t>(*values.rbegin())];
    std::string text;
    for (const int value : values)
        text += (text.empty() ? "" : "|") + values_of(attribute)[static_cast<std::size_t>(value)];
    return text;
}

std::string withdrawn_text(bool withdrawn) { return withdrawn ? "no longer so" : ""; }

void add_parts(const World& world, std::map<std::string, std::string>& files) {
    for (std::size_t i = 0; i < world.items.size(); ++i) {
        const auto& one = world.items[i];
        files["items"] += item_key(world, static_cast<int>(i)) + "," + name(parts, one.part) + ",a thing," +
                          number(one.pack) + "," + withdrawn_text(one.withdrawn) + ",s-maker-a\n";
    }
    for (std::size_t i = 0; i < world.groups.size(); ++i)
        files["groups"] += group_key(world, static_cast<int>(i)) + "," + name(parts, world.groups[i].part) +
                           ",a group,s-maker-a\n";
    for (const auto& one : world.members)
        files["group_members"] += group_key(world, one.group) + "," + item_key(world, one.item) + "," +
                                  name(bases, one.basis) + "," + source_key(one.source) + "\n";
    for (const auto& one : world.kit_contents)
        files["kit_contents"] += item_key(world, one.kit) + "," + group_key(world, one.group) + "," +
                                 number(one.quantity) + "," + source_key(one.source) + "\n";
    for (const auto& one : world.stand_ins)
        files["stand_ins"] += group_key(world, one.offered) + "," + name(relations, one.relation) + "," +
                              group_key(world, one.wanted) + "," + text_of(one.when) + "," +
                              (one.requirement ? "cut the tab off" : "") + "," +
                              (one.also < 0 ? "" : group_key(world, one.also)) + "," +
                              (one.relation == Relation::bolts_up_but ? "louder" : "") + "," +
                              withdrawn_text(one.withdrawn) + "," + source_key(one.source) + "\n";
}

void add_domain_rows(const World& world, std::map<std::string, std::string>& files) {
    for (const auto& one : world.objections)
        files["bench_rig_objections"] += group_key(world, one.group) + "," + text_of(one.when) + "," +
                                         (one.veto ? "does_not_fit" : "check_first") + ",s-maker-a\n";
    for (const auto& one : world.opinions)
        files["bench_rig_opinions"] += group_key(world, one.offered) + "," + group_key(world, one.wanted) + "," +
                                       (one.veto ? "veto" : "ask") + ",s-maker-a\n";
    for (const auto& one : world.held_back)
        files["bench_rig_holds"] += world.key + "," + (one.place < 0 ? "" : name_of(one.place)) + "," +
                                    values_of(noise)[static_cast<std::size_t>(one.noise_heard)] + ",s-maker-a\n";
    for (const auto& one : world.beside)
        files["bench_rig_companions"] += group_key(world, one.group) + "," + name_of(one.place) + ",s-maker-a\n";
    for (const int group : world.single_use) files["bench_rig_single_use"] += group_key(world, group) + ",s-maker-a\n";
}

}  // namespace

const char* name_of(int place) { return name(place_names, place); }
const char* attribute_name(int attribute) { return name(attributes, attribute); }
const char* known_name(Known known) {
    static constexpr std::array<const char*, 4> names{"measured", "read", "seller-said", "assumed"};
    return name(names, known);
}

std::string group_key(const World& world, int group) { return world.key + "-g" + std::to_string(group); }
std::string item_key(const World& world, int item) { return world.key + "-i" + std::to_string(item); }

std::string text_of(const When& when) {
    std::string text;
    for (const auto& term : when)
        text += std::string(text.empty() ? "" : "; ") + attribute_name(term.attribute) + "=" +
                joined(term.values, term.attribute);
    return text;
}

std::string text_of(const Tell& tell) {
    return tell.attribute == depth ? number(tell.mm) + "mm" : joined(tell.values, tell.attribute);
}

std::string source_rows() {
    std::string rows;
    for (const auto& one : sources())
        rows += std::string(one.key) + "," + name(kinds, one.evidence) + ",made up for the chain test,,\n";
    return rows;
}

std::map<std::string, std::string> pack_rows(const World& world) {
    std::map<std::string, std::string> files;
    files["lines"] = world.key + ",a line,,s-maker-a\n";
    for (const auto& one : world.configurations) {
        if (world.open) break;
        std::string values;
        for (int a = 0; a < line_attributes; ++a)
            values += std::string(a ? "; " : "") + attribute_name(a) + "=" +
                      values_of(a)[static_cast<std::size_t>(one.value[static_cast<std::size_t>(a)])];
        files["configurations"] += world.key + "," + values + "," + std::to_string(one.share) + "," +
                                   source_key(one.source) + "\n";
    }
    add_parts(world, files);
    for (const auto& one : world.statements)
        files["applications"] += world.key + "," + name_of(one.place) + "," + name(verdict_words, one.says) + "," +
                                 (one.group < 0 ? "" : group_key(world, one.group)) + "," + text_of(one.when) + "," +
                                 (one.quantity > 0 ? number(one.quantity) : "") + ",," + withdrawn_text(one.withdrawn) +
                                 "," + source_key(one.source) + "\n";
    files["jobs"] = world.key + "-job,a job,60,s-maker-a\n";
    for (const auto& one : world.job)
        files["job_roles"] += world.key + "-job," + std::string(name_of(one.place)) + "," + name(reaches, one.reach) +
                              "," + (one.of_line ? world.key : "") + "," + text_of(one.when) +
                              ",if_undamaged,,s-maker-a\n";
    add_domain_rows(world, files);
    return files;
}

namespace {

// Of groups and items, those that anything else speaks of.
std::map<std::string, std::string> rows_that_matter(const World& world) {
    auto files = pack_rows(world);
    for (const char* file : {"groups", "items"}) {
        std::string kept, row;
        std::istringstream rows(files[file]);
        while (std::getline(rows, row)) {
            const auto key = row.substr(0, row.find(',') + 1);
            bool named = false;
            for (const auto& [other, text] : files)
                named |= other != file && ("\n" + text + ",").find(key.substr(0, key.size() - 1)) != std::string::npos;
            if (named) kept += row + "\n";
        }
        files[file] = kept;
    }
    return files;
}

}  // namespace

std::string rows_of(const World& world) {
    std::ostringstream out;
    for (const auto& [file, rows] : rows_that_matter(world))
        if (!rows.empty()) out << file << ".csv\n" << rows;
    out << "told, in this order\n";
    for (const auto& one : world.told)
        out << "  " << attribute_name(one.attribute) << "=" << text_of(one) << " --evidence " << known_name(one.known)
            << "\n";
    out << "on file\n";
    for (std::size_t s = 0; s < world.sellers.size(); ++s)
        out << "  seller s" << s << ": carriage " << world.sellers[s].carriage << ", free from "
            << world.sellers[s].free_from << ", minimum " << world.sellers[s].minimum << "\n";
    for (const auto& one : world.offers)
        out << "  " << item_key(world, one.item) << " of s" << one.seller << ": " << one.cents << " for " << one.pack
            << ", available " << one.available << "\n";
    for (const auto& one : world.shelf)
        out << "  on the shelf: " << item_key(world, one.item) << " " << one.quantity << ", kept " << one.kept << "\n";
    for (const auto& one : world.bought)
        out << "  " << item_key(world, one.item) << " for " << name_of(one.place) << ": ordered " << one.ordered
            << ", received " << one.received << ", returned " << one.returned << ", fitted " << one.fitted << "\n";
    return out.str();
}

}  // namespace chain
