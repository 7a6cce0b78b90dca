// A yard in a folder of its own, every command that writes, and what may be looked at after one of them was stopped:
// each of the things that are written is as before the command or as after it. CASEBOUND_HARD=long tries every place to
// stop at; without it a few of each, spread evenly.
#pragma once

#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/pack/catalog_file.h"
#include "core/shop/shop_photos.h"
#include "core/store/sqlite.h"
#include "tests/environment.h"
#include "tests/scratch_folder.h"

namespace hard {

namespace files = std::filesystem;

inline const std::string program = CASEBOUND_BINARY_DIR "/casebound";

inline bool is_long() {
    const char* how = std::getenv("CASEBOUND_HARD");
    return how && std::string_view(how) == "long";
}

// Places 1 to `all` to stop at: every one, or about `few`, with the first and the last.
inline std::vector<int> places(int all, int few) {
    std::vector<int> chosen;
    const int step = is_long() ? 1 : std::max(1, (all + few - 1) / few);
    for (int n = 1; n <= all; n += step) chosen.push_back(n);
    if (!chosen.empty() && chosen.back() != all) chosen.push_back(all);
    return chosen;
}

// Those alone that begin with CASEBOUND_HARD_ONLY, where it is given.
inline bool is_asked_for(std::string_view words) {
    const char* only = std::getenv("CASEBOUND_HARD_ONLY");
    return !only || words.starts_with(only);
}

struct Writing {
    std::string words;
    bool to_catalog = false;
};

inline std::vector<Writing> writing_commands() {
    std::vector<Writing> all{
        {"vehicle new other quernmoor-packet year=2007"},
        {"vehicle tell van leak_at=dry"},
        {"vehicle correct van --market islands"},
        {"vehicle tell van engine --take-back"},
        {"record van odometer odometer=131800"},
        {"vehicle tell van pan_depth=41mm measured --photo pan.jpg"},
        {"vehicle new other quernmoor-packet year=2007 read --photo pan.jpg --photo other.png"},
        {"record van looked-at role=pan-gasket state=worn --photo pan.jpg"},
        {"note van pan-filter PF-33 --says label --photo pan.jpg --pack-folder own", true},
        {"vehicle photos van --take-back 1"},
        {"vehicle forget old --yes"},
        {"offer add seller=Ayle carriage=5 item=Q-QF4-1 price=8 days=2"},
        {"offer withdraw Pier Q-QF4-5"},
        {"shelf put item=Q-QF4-1 quantity=2L"},
        {"shop set jurisdiction=us-federal"},
        {"buy van pan-service --without filter-neck-seal --without pan-gasket --without pan-filter --ordered"},
        {"close van pan-service cause=wear worked=no hours=8 money=150 open=counted"},
        {"shop export out"},
        {"shop import exported --shop home/imported.sqlite"},
        {"shop backup away"},
        {"shop restore backup.tar --shop home/restored.sqlite"},
        {"keep van applications role=pan-filter item=Q312-1141 --pack own --confirm", true},
        {"pack load own", true},
        {"pack drop demo-extra --yes", true},
        {"pack new fresh"},
        {"pack new fresh.xlsx"},
        {"pack draft list.csv drafted --kind pan-filter --seller Kelder --confirm"},
        {"pack check --seal loose"},
        {"domain new rain_gutters project"},
    };
    std::erase_if(all, [](const Writing& one) { return !is_asked_for(one.words); });
    return all;
}

class Yard {
public:
    Yard() : date_("CASEBOUND_TODAY", "2026-11-25"), home_("CASEBOUND_HOME", (root() + "/home").c_str()) {
        files::create_directories(root());
        std::string packs;
        for (const auto& entry : files::directory_iterator(CASEBOUND_SOURCE_DIR "/seed-data"))
            if (entry.path().filename() == "demo-fleet") packs += fmt::format(" '{}'", entry.path().string());
        must("pack load --reference");
        must("pack load" + packs);
        must("vehicle new van quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm measured");
        for (const auto& name : {"plain.jpg", "plain.png", "plain.webp"})
            files::copy(std::string(CASEBOUND_SOURCE_DIR "/tests/ground/photos/") + name, root() + "/" + name);
        files::rename(root() + "/plain.jpg", root() + "/pan.jpg");
        files::rename(root() + "/plain.png", root() + "/other.png");
        must("vehicle tell van leak_at=dry read --photo plain.webp");
        must("vehicle new old quernmoor-packet year=2007 read --photo other.png");
        must("record van fitted role=pan-filter item=Q312-1141 made=new");
        must("record van start job=pan-service");
        must("offer add seller=Pier carriage=5 item=Q-QF4-5 price=36 days=2");
        must("keep van applications role=pan-filter item=Q312-1141 --pack own --confirm");
        must("keep van applications role=pan-filter item=Q312-1141 --pack demo-extra --confirm");
        must("shop export exported");
        must("vehicle list --shop home/imported.sqlite");
        must("shop backup made");
        files::rename(files::directory_iterator(root() + "/made")->path(), root() + "/backup.tar");
        files::remove_all(root() + "/made");
        files::remove(root() + "/home/shop.sqlite.last-backup");
        files::copy(root() + "/own", root() + "/loose");
        std::ofstream(root() + "/list.csv") << "Part no.,Title,Price\nPF-33,a filter,12.50\nPF-34,another,4.20\n";
        // So that to load or to seal them changes something.
        add_row("own/sources.csv", "by-hand,common_practice,Told at the yard,,\n");
        add_row("loose/sources.csv", "by-hand,common_practice,Told at the yard,,\n");
        must("pack check --seal own");
        files::rename(root(), start());
    }

    std::string root() const { return folder_.file("root"); }

    // The yard as it began; a catalog that is not written to is shared.
    void begin(bool to_catalog) {
        looks_at_catalog_ = to_catalog;
        files::remove_all(root());
        for (const auto& entry : files::recursive_directory_iterator(start())) {
            const auto to = root() / files::relative(entry.path(), start());
            if (entry.is_directory()) files::create_directories(to);
            else if (entry.path().filename() == "catalog.sqlite" && !to_catalog) {
                files::create_directories(to.parent_path());
                files::create_hard_link(entry.path(), to);
            } else {
                files::create_directories(to.parent_path());
                files::copy_file(entry.path(), to);
            }
        }
    }

    // Runs it in the yard, both streams to `said`; the exit code, 128 + N for signal N.
    int run(const std::string& words, const std::string& before = {},
            const std::string& streams = "> said 2>&1") const {
        const int how = std::system(
            fmt::format("cd '{}' && {} '{}' {} {}", root(), before, program, words, at_home(streams)).c_str());
        return WIFEXITED(how) ? WEXITSTATUS(how) : 128 + WTERMSIG(how);
    }
    std::string said(const std::string& name = "said") const { return ScratchFolder::read(folder_.file(name)); }

    // What is written, by name: "damaged: ..." for what is not sound.
    std::map<std::string, std::string> state() const {
        std::map<std::string, std::string> all;
        for (const auto& entry : files::recursive_directory_iterator(root())) {
            const auto name = files::relative(entry.path(), root()).string();
            if (!entry.is_regular_file() || is_left_over(name)) continue;
            if (name == "home/catalog.sqlite" && !looks_at_catalog_) continue;  // it is shared, and only read
            const auto top = name.substr(0, name.find('/'));
            if (name == "home/catalog.sqlite") all[name] = rows_of(casebound::open_catalog_file(path(name), mode));
            else if (name.find(".sqlite.photos/") != std::string::npos)
                continue;  // looked at with the rows that name them
            else if (name.ends_with(".sqlite"))
                all[name] = rows_of(casebound::Database(path(name), mode)) + photos_of(path(name));
            else
                all[top == "home" ? name : top] += name + casebound::sha256_of(
                                                              std::string_view(ScratchFolder::read(path(name))));
        }
        return all;
    }

private:
    static constexpr auto mode = casebound::Database::Mode::read_write;

    std::string start() const { return folder_.file("start"); }
    std::string path(const std::string& name) const { return root() + "/" + name; }
    std::string at_home(std::string streams) const {
        for (auto at = streams.find("said"); at != std::string::npos;
             at = streams.find("said", at + folder_.path().size()))
            streams.replace(at, 4, folder_.file("said")), at += 4;
        return streams;
    }
    void must(const std::string& words) const {
        const int exit = run(words);
        INFO(words << "\n" << said());
        REQUIRE(exit == 0);
    }
    void add_row(const std::string& name, const std::string& row) const {
        folder_.write("root/" + name, ScratchFolder::read(path(name)) + row);
    }
    // Of a command that was stopped, beside what it would have replaced.
    static bool is_left_over(const std::string& name) {
        return name.find(".new") != std::string::npos || name.find("-journal") != std::string::npos ||
               name.find(".restored") != std::string::npos || name.find(".casebound-shop-copy") != std::string::npos ||
               name.ends_with("plugins.probed");
    }
    // Every photo that a row names has its file; "damaged: ..." when it has not. More files do no harm: they are swept.
    static std::string photos_of(const std::string& shop) {
        std::string all;
        for (const auto& photo :
             casebound::photo_files(casebound::Database(shop, mode), casebound::photos_folder(shop)))
            all += casebound::is_there(photo) ? photo.sha256
                                              : fmt::format("damaged: photo {} has no file", photo.number);
        return all;
    }
    static std::string rows_of(const casebound::Database& database) {
        try {
            std::string rows;
            casebound::Statement sound(database, "PRAGMA integrity_check");
            if (!sound.step() || sound.text(0) != "ok") return "damaged: " + sound.str(0);
            casebound::Statement tables(database, "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name");
            while (tables.step()) {
                const auto columns = database.integer(
                    fmt::format("SELECT count(*) FROM pragma_table_info('{}')", tables.text(0)));
                casebound::Statement all(database, fmt::format("SELECT * FROM \"{}\" ORDER BY rowid", tables.text(0)));
                rows += tables.str(0);
                while (all.step())
                    for (int i = 0; i < static_cast<int>(columns); ++i) rows += all.str(i) + "\n";
            }
            return casebound::sha256_of(rows);
        } catch (const casebound::Error& error) { return std::string("damaged: ") + error.what(); }
    }

    ScratchFolder folder_;
    SetVariable date_, home_;
    bool looks_at_catalog_ = true;
};

// "" when each thing is as in one of the two; else what is neither.
inline std::string between(const std::map<std::string, std::string>& now,
                           const std::map<std::string, std::string>& before,
                           const std::map<std::string, std::string>& after) {
    const auto is = [](const auto& state, const std::string& name, const std::string* text) {
        const auto at = state.find(name);
        return at == state.end() ? text == nullptr : text && *text == at->second;
    };
    for (const auto* names : {&now, &before, &after})
        for (const auto& [name, _] : *names) {
            const auto at = now.find(name);
            const auto* text = at == now.end() ? nullptr : &at->second;
            if (!is(before, name, text) && !is(after, name, text))
                return name + ": neither as before nor as after" + (text ? ": " + text->substr(0, 200) : "");
        }
    return "";
}

}  // namespace hard
