#include "core/pack/pack_descriptor.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "core/ground/error.h"
#include "core/ground/owned_json.h"
#include "core/ground/utf8.h"

namespace casebound {

namespace {

using nlohmann::ordered_json;

constexpr std::size_t most_bytes = std::size_t{4} << 20;
constexpr int most_depth = 32;

struct TooDeep {};

// Line and column of a byte, both from 1.
std::string place_of(std::string_view text, std::size_t byte) {
    const auto before = text.substr(0, std::min(byte > 0 ? byte - 1 : 0, text.size()));
    const auto line = std::count(before.begin(), before.end(), '\n') + 1;
    const auto start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    return fmt::format("{}:{}", line, before.size() - start + 1);
}

// The JSON, or the fault's place and text.
struct Parsed {
    OwnedJson json;
    std::string fault;
    unsigned long line{};
    unsigned column{};
};

Parsed parsed(const std::string& text) {
    Parsed result;
    const auto at = [&](std::size_t byte, std::string what) {
        const auto place = place_of(text, byte);
        result.line = std::stoul(place);
        result.column = static_cast<unsigned>(std::stoul(place.substr(place.find(':') + 1)));
        result.fault = std::move(what);
    };
    if (text.substr(0, 3) == "\xEF\xBB\xBF") {
        at(1, "begins with a byte-order mark: save it as UTF-8 without one");
        return result;
    }
    try {
        result.json = ordered_json::parse(text, [](int depth, ordered_json::parse_event_t, ordered_json&) {
            if (depth > most_depth) throw TooDeep{};
            return true;
        });
    } catch (const TooDeep&) {
        result.fault = fmt::format("nested more than {} deep: this is not a descriptor", most_depth);
    } catch (const ordered_json::parse_error& error) {
        const std::string what = error.what();
        const auto detail = what.find(": ", what.find("parse error"));
        at(error.byte, fmt::format("not JSON: {}: correct it, or make a new one with `casebound pack new`",
                                   shown(detail == std::string::npos ? what : what.substr(detail + 2), 120)));
    }
    return result;
}

std::string_view kind_of(const ordered_json& value) { return value.type_name(); }

class DescriptorReader {
public:
    DescriptorReader(const ordered_json& json, FaultList& faults) : json_(json), faults_(faults) {}

    // Nothing when it does not say which pack this is, or lists no files: all else would follow from that.
    std::optional<Descriptor> read() {
        if (!json_.is_object()) {
            fault("", fmt::format("it is {}: a descriptor is an object", kind_of(json_)));
            return std::nullopt;
        }
        Descriptor descriptor;
        descriptor.name = text(json_, "name", "", true);
        const bool named = check_name(descriptor.name);
        descriptor.title = text(json_, "title", "", true);
        descriptor.version = text(json_, "version", "", true);
        if (const auto at = json_.find("invented"); at != json_.end()) {
            if (at->is_boolean()) descriptor.invented = at->get<bool>();
            else fault("invented", fmt::format("it is {}: write true or false", kind_of(*at)));
        }
        return read_resources(descriptor) && named ? std::optional(std::move(descriptor)) : std::nullopt;
    }

private:
    bool read_resources(Descriptor& descriptor) {
        const auto at = json_.find("resources");
        if (at == json_.end() || !at->is_array()) {
            fault("resources", at == json_.end() ? "missing: list the pack's files; `casebound pack new` writes it"
                                                 : fmt::format("it is {}: write a list", kind_of(*at)));
            return false;
        }
        for (std::size_t i = 0; i < at->size(); ++i) {
            const auto place = fmt::format("resources[{}]", i);
            if (!(*at)[i].is_object()) fault(place, fmt::format("it is {}: write an object", kind_of((*at)[i])));
            else descriptor.files.push_back(read_file((*at)[i], place));
        }
        return true;
    }

    DescribedFile read_file(const ordered_json& json, const std::string& place) {
        DescribedFile file{place, text(json, "name", place, true), text(json, "path", place, true)};
        if (const auto at = json.find("bytes"); at != json.end()) {
            if (at->is_number_unsigned()) file.bytes = at->get<std::uint64_t>();
            else fault(place + ".bytes", fmt::format("it is {}: write the size of the file", kind_of(*at)));
        }
        const auto hash = text(json, "hash", place, false);
        if (hash.substr(0, 7) == "sha256:" && hash.size() == 71) file.sha256 = hash.substr(7);
        else if (!hash.empty())
            fault(place + ".hash", "it must be sha256: and 64 digits: `casebound pack check --seal` writes it");
        expect(json, "encoding", "utf-8", place);
        expect(json, "format", "csv", place);
        if (const auto at = json.find("dialect"); at != json.end()) {
            if (at->is_object()) {
                expect(*at, "delimiter", ",", place + ".dialect");
                expect(*at, "quoteChar", "\"", place + ".dialect");
            } else {
                fault(place + ".dialect", fmt::format("it is {}: write an object", kind_of(*at)));
            }
        }
        if (const auto at = json.find("schema"); at != json.end()) read_schema(*at, place + ".schema", file);
        return file;
    }

    void read_schema(const ordered_json& json, const std::string& place, DescribedFile& file) {
        const auto fields = json.is_object() ? json.find("fields") : json.end();
        if (!json.is_object() || fields == json.end() || !fields->is_array())
            return fault(place, "it has no list of fields: `casebound pack new` brings it up to date");
        for (std::size_t i = 0; i < fields->size(); ++i)
            if ((*fields)[i].is_object())
                file.columns.push_back(text((*fields)[i], "name", fmt::format("{}.fields[{}]", place, i), true));
        const auto keys = json.find("foreignKeys");
        if (keys == json.end() || !keys->is_array()) return;
        for (std::size_t i = 0; i < keys->size(); ++i)
            read_reference((*keys)[i], fmt::format("{}.foreignKeys[{}]", place, i), file);
    }

    void read_reference(const ordered_json& json, const std::string& place, DescribedFile& file) {
        const auto to = json.is_object() ? json.find("reference") : json.end();
        if (!json.is_object() || to == json.end() || !to->is_object())
            return fault(place, "it has no reference: `casebound pack new` brings it up to date");
        file.inside_references.push_back(
            {text(json, "fields", place, true), text(*to, "resource", place, false), text(*to, "fields", place, true)});
    }

    bool check_name(const std::string& name) {
        if (!name.empty() && !is_pack_name(name))  // an empty one is said already
            fault("name", fmt::format("`{}`: write at most 64 lower-case letters, digits, . _ -", shown(name)));
        return is_pack_name(name);
    }

    std::string text(const ordered_json& json, const char* name, const std::string& place, bool required) {
        const auto path = place.empty() ? std::string(name) : place + "." + name;
        const auto at = json.find(name);
        if (at != json.end() && at->is_string() && !(required && at->get_ref<const std::string&>().empty()))
            return at->get<std::string>();
        if (at != json.end() && !at->is_string())
            fault(path, fmt::format("it is {}: write a text in quotes", kind_of(*at)));
        else if (required) fault(path, "missing: write it; `casebound pack new` shows how");
        return {};
    }

    void expect(const ordered_json& json, const char* name, std::string_view wanted, const std::string& place) {
        const auto found = text(json, name, place, false);
        if (!found.empty() && found != wanted)
            fault(place + "." + name, fmt::format("`{}`: a pack's files are {}", shown(found), wanted));
    }

    void fault(const std::string& where, std::string what) {
        faults_.add({descriptor_file, 0, 0, where, std::move(what)});
    }

    const ordered_json& json_;
    FaultList& faults_;
};

}  // namespace

bool is_pack_name(const std::string& name) {
    constexpr std::size_t most = 64;
    return !name.empty() && name.size() <= most && std::all_of(name.begin(), name.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-';
    });
}

std::string read_descriptor_text(const std::string& folder) {
    return read_whole(folder + "/" + descriptor_file, most_bytes);
}

void require_json(const std::string& text) {
    if (const auto result = parsed(text); !result.fault.empty())
        throw Error(Exit::bad_data, PackFault{descriptor_file, result.line, result.column, "", result.fault}.text());
}

std::optional<Descriptor> read_descriptor(const std::string& folder, FaultList& faults) {
    std::string text;
    try {
        text = read_descriptor_text(folder);
    } catch (const Error& error) {
        if (error.exit() == Exit::no_input) throw;
        faults.add(
            {descriptor_file, 0, 0, "", fmt::format("larger than {} bytes: this is not a descriptor", most_bytes)});
        return std::nullopt;
    }
    const auto result = parsed(text);
    if (!result.fault.empty()) {
        faults.add({descriptor_file, result.line, result.column, "", result.fault});
        return std::nullopt;
    }
    auto descriptor = DescriptorReader(*result.json, faults).read();
    if (descriptor) descriptor->sha256 = sha256_of(text);
    return descriptor;
}

}  // namespace casebound
