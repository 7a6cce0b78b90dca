#include "core/pack/pack_workbook.h"

#include <algorithm>
#include <filesystem>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "core/ground/error.h"
#include "core/ground/replacement.h"
#include "core/ground/utf8.h"
#include "core/pack/csv_rows.h"
#include "core/pack/table_reader.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

// What stands beside a word of the first column of the sheet `pack`.
class PackSheet final : public BookRows {
public:
    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        if (cells.size() < 2 || cells[1].is == CellIs::empty) return true;
        const auto word = std::string(cells[0].text);
        if (word == "name" || word == "title" || word == "version" || word == "invented")
            said.emplace(word, std::pair(line, std::string(cells[1].text)));
        return true;
    }
    void merged(const MergedCells&) override {}  // a word that is covered is missed
    std::map<std::string, std::pair<unsigned long, std::string>> said;
};

std::string descriptor_text(const PackContents& contents) {
    const nlohmann::ordered_json json{{"name", contents.name},
                                      {"title", contents.title},
                                      {"version", contents.version},
                                      {"invented", contents.invented}};
    return json.dump(2) + "\n";
}

}  // namespace

bool is_pack_workbook(const std::string& path) {
    std::error_code ignored;
    return names_workbook(path) && !fs::is_directory(path, ignored);
}

PackBook::PackBook(const std::string& path) : path_(path), book_(path) {}

std::size_t PackBook::sheet_of(const std::string& table) const {
    const auto& sheets = book_.sheets();
    return static_cast<std::size_t>(std::find(sheets.begin(), sheets.end(), table) - sheets.begin());
}

std::optional<Descriptor> PackBook::descriptor(FaultList& faults) const {
    const std::string file = std::string(pack_sheet) + ".csv";
    const auto fault = [&](unsigned long line, std::string what) {
        faults.add({file, line, line > 0 ? 2u : 0u, "", std::move(what)});
    };
    const auto at = sheet_of(pack_sheet);
    if (at == book_.sheets().size()) {
        fault(0, "the sheet is missing: it says the pack's name, title and version: `casebound pack new` writes it");
        return std::nullopt;
    }
    PackSheet sheet;
    book_.read(at, sheet);
    const auto said = [&](const char* word) {
        const auto found = sheet.said.find(word);
        if (found == sheet.said.end())
            fault(0, fmt::format("nothing stands beside `{}`: write it into column B", word));
        return found == sheet.said.end() ? std::string() : found->second.second;
    };
    Descriptor descriptor;
    descriptor.name = said("name");
    descriptor.title = said("title");
    descriptor.version = said("version");
    descriptor.sha256 = sha256_of(fmt::format("{}\n{}\n{}", descriptor.name, descriptor.title, descriptor.version));
    if (!descriptor.name.empty() && !is_pack_name(descriptor.name)) {
        fault(sheet.said.at("name").first,
              fmt::format("`{}`: write at most 64 lower-case letters, digits, . _ -", shown(descriptor.name)));
        return std::nullopt;
    }
    if (const auto found = sheet.said.find("invented"); found != sheet.said.end()) {
        descriptor.invented = found->second.second == "yes";
        if (found->second.second != "yes" && found->second.second != "no")
            fault(found->second.first, fmt::format("`{}`: write yes or no", shown(found->second.second)));
    }
    for (const auto& name : book_.sheets())
        if (name != pack_sheet && name != words_sheet) descriptor.files.push_back({name, name, name});
    return descriptor.name.empty() ? std::nullopt : std::optional(std::move(descriptor));
}

std::vector<PackFile> PackBook::files(const Descriptor& descriptor, const PackShape& shape,
                                      const std::vector<std::string>& known_domains, FaultList& faults) const {
    std::vector<PackFile> files;
    for (const auto& sheet : descriptor.files) {
        const auto* table = shape.find(sheet.table);
        if (table) files.push_back({table, &sheet, path_});
        else
            faults.add({sheet.table + ".csv", 0, 0, "",
                        unknown_table(sheet.table, shape, known_domains) + ", or delete the sheet"});
    }
    return files;
}

void PackBook::read(const TableShape& table, PackData& data, FaultList& faults) const {
    read_sheet(book_, sheet_of(table.name), table, data, faults);
}

void place_in_workbook(std::vector<PackFault>& faults, const std::string& path) {
    for (auto& fault : faults) {
        if (fault.file.empty() || !fault.sheet.empty()) continue;
        fault.sheet = fault.file == descriptor_file ? pack_sheet : fs::path(fault.file).stem().string();
        fault.file = fs::path(path).filename().string();
    }
}

PackContents empty_contents(const std::string& name, const PackShape& shape, const std::vector<std::string>& tables) {
    PackContents contents{name, name, "0.1.0", false, {name, {}}};
    for (const auto& table : shape.tables())
        if (tables.empty() || std::find(tables.begin(), tables.end(), table.name) != tables.end())
            contents.edition.tables.push_back({&table, {}});
    return contents;
}

PackContents contents_of(const std::string& pack, const PackShape& shape) {
    FaultList faults;
    const bool is_book = is_pack_workbook(pack);
    const auto descriptor = is_book ? PackBook(pack).descriptor(faults) : read_descriptor(pack, faults);
    auto all = faults.faults();
    if (is_book) place_in_workbook(all, pack);
    std::vector<std::string> texts;
    for (const auto& fault : all) texts.push_back(fault.text());
    if (!texts.empty() || !descriptor) throw Error(Exit::bad_data, std::move(texts));
    PackContents contents{descriptor->name, descriptor->title, descriptor->version, descriptor->invented, {}};
    contents.edition = edition_in(pack, shape, EmptyTables::kept);
    return contents;
}

void write_pack_tables(const std::string& folder, const PackContents& contents) {
    for (const auto& table : contents.edition.tables) {
        std::string text = fmt::format("{}\n", fmt::join(table.shape->column_names(), ","));
        for (const auto& row : table.rows)
            for (std::size_t i = 0; i < row.cells.size(); ++i)
                text += csv_cell(row.cells[i]) + (i + 1 < row.cells.size() ? "," : "\n");
        replace_file(folder + "/" + table.shape->file(), text);
    }
    replace_file(folder + "/" + descriptor_file, descriptor_text(contents));
}

}  // namespace casebound
