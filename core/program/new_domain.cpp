#include "core/program/new_domain.h"

#include <algorithm>
#include <fstream>
#include <optional>
#include <set>

#include <fmt/format.h>

#include "core/ground/embedded_file.h"
#include "core/ground/error.h"
#include "core/ground/replacement.h"
#include "core/pack/pack.h"

namespace casebound {

extern const EmbeddedFile* const new_domain_files;

namespace {

namespace fs = std::filesystem;

std::string replaced(std::string text, std::string_view from, std::string_view to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
        text.replace(at, from.size(), to);
    return text;
}

// "brake_hoses" with another joint; capitals: each part begins with one.
std::string joined(const std::string& name, std::string_view joint, bool capitals = false) {
    std::string out;
    bool first = true;
    for (const char c : name) {
        if (c == '_') out += joint;
        else out += first && capitals ? static_cast<char>(c - 'a' + 'A') : c;
        first = c == '_';
    }
    return out;
}

// A word at the beginning of a sentence.
std::string sentence(std::string text) {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

// The template's own name in each of its forms, given to another.
std::string named(std::string text, const std::string& name) {
    text = replaced(std::move(text), "new_domain", name);
    text = replaced(std::move(text), "new-domain", joined(name, "-"));
    text = replaced(std::move(text), "NewDomain", joined(name, "", true));
    text = replaced(std::move(text), "New domain", sentence(joined(name, " ")));
    return replaced(std::move(text), "new domain", joined(name, " "));
}

struct File {
    fs::path path;
    std::string text;
};

std::vector<File> files_named(const std::string& name) {
    std::vector<File> files;
    for (const auto* file = new_domain_files; file->path; ++file)
        files.push_back({named(file->path, name), named(file->text, name)});
    return files;
}

void write(NewFolder& folder, const File& file) {
    make_folder((fs::path(folder.path()) / file.path).parent_path());
    folder.write(file.path.string(), file.text);
}

// The domain as far as its tables go: what the descriptor of its pack is made from.
class TablesOnly final : public Domain {
public:
    explicit TablesOnly(std::string schema) : schema_(std::move(schema)) {}
    std::string_view title() const override { return "tables only"; }
    std::string_view schema() const override { return schema_; }
    Vocabulary vocabulary() const override { return {}; }

private:
    std::string schema_;
};

void describe_pack(const std::string& pack, const std::string& name, const std::string& schema, Plugins plugins) {
    const TablesOnly tables(schema);
    plugins.domains.emplace_back(name, "", tables, Vocabulary{});
    new_pack(pack, joined(name, "-"), plugins);
    seal_pack(pack);
}

std::string schema_of(const std::vector<File>& files) {
    const auto at = std::find_if(files.begin(), files.end(),
                                 [](const File& file) { return file.path.extension() == ".sql"; });
    return at->text;
}

// Whether `path` lies in `folder`; then what is left of it.
std::optional<fs::path> inside(const fs::path& path, const fs::path& folder) {
    const auto left = path.lexically_relative(folder);
    if (left.empty() || *left.begin() == "..") return std::nullopt;
    return left;
}

void refuse_what_is_there(const std::vector<fs::path>& places) {
    std::vector<std::string> faults;
    for (const auto& place : places)
        if (fs::exists(fs::symlink_status(place)))
            faults.push_back(
                fmt::format("{}: it is there already, and is not written over: take another name, or move "
                            "it away",
                            place.string()));
    if (!faults.empty()) throw Error(Exit::cannot_create, std::move(faults));
}

}  // namespace

fs::path source_tree_above(const fs::path& folder) {
    for (auto at = fs::absolute(folder).lexically_normal(); at.has_relative_path(); at = at.parent_path()) {
        std::ifstream in(at / "CMakeLists.txt");
        for (std::string line; std::getline(in, line);)
            if (line.rfind("project(casebound ", 0) == 0) return at;
    }
    return {};
}

NewDomain write_domain_project(const std::string& name, const std::string& folder, const Plugins& plugins) {
    if (!(fs::is_directory(folder) && fs::is_empty(folder))) refuse_what_is_there({folder});
    NewDomain written{folder, {}, false};
    const auto files = files_named(name);
    NewFolder project(folder, NewFolder::Begin::empty);
    for (const auto& file : files) {
        write(project, file);
        written.files.push_back(file.path.string());
    }
    describe_pack((fs::path(project.path()) / "seed-data" / name).string(), name, schema_of(files), plugins);
    project.change_places();
    return written;
}

NewDomain write_domain_in_tree(const std::string& name, const fs::path& root, const Plugins& plugins) {
    const auto code = root / "plugins" / name, pack = root / "seed-data" / name, cases = root / "tests/cases" / name,
               schema = root / "schema" / (name + ".sql");
    refuse_what_is_there({code, pack, cases, schema});
    NewDomain written{root.string(), {}, true};
    const auto files = files_named(name);
    NewFolder new_code(code.string(), NewFolder::Begin::empty), new_pack(pack.string(), NewFolder::Begin::empty),
        new_cases(cases.string(), NewFolder::Begin::empty);
    const auto put = [&](NewFolder& folder, const fs::path& place, const fs::path& path, const std::string& text) {
        write(folder, {path, text});
        written.files.push_back((place.lexically_relative(root) / path).string());
    };
    for (const auto& file : files) {
        if (const auto row = inside(file.path, fs::path("seed-data") / name)) put(new_pack, pack, *row, file.text);
        else if (const auto one = inside(file.path, "cases")) put(new_cases, cases, *one, file.text);
        else if (file.path.extension() == ".cpp" || file.path.extension() == ".h")
            put(new_code, code, file.path, file.text);
    }
    describe_pack(new_pack.path(), name, schema_of(files), plugins);
    replace_file(schema.string(), schema_of(files));
    written.files.push_back(schema.lexically_relative(root).string());
    for (auto* folder : {&new_pack, &new_cases, &new_code}) folder->change_places();  // the code last: it is the domain
    std::sort(written.files.begin(), written.files.end());
    return written;
}

}  // namespace casebound
