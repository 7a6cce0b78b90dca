// The datapackage.json of a pack: a Data Package descriptor, version 2, that is also valid as version 1, with each
// table's schema derived from the SQL. Reads it with suspicion and writes it in full; never reads a CSV file.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/ground/file_stamp.h"
#include "core/pack/pack_faults.h"
#include "core/pack/pack_shape.h"

namespace casebound {

inline constexpr const char* descriptor_file = "datapackage.json";

struct DeclaredReference {
    std::string column, target_table, target_column;
};  // target_table "": the table itself

struct DescribedFile {
    std::string place;  // "resources[2]", for messages
    std::string table;  // its name
    std::string path;
    std::optional<std::uint64_t> bytes{};
    std::string sha256{};                                // "" when it is not sealed
    std::vector<std::string> columns{};                  // of its schema, as declared
    std::vector<DeclaredReference> inside_references{};  // foreign keys inside the pack
};

struct Descriptor {
    std::string name, title, version;
    bool invented{};
    std::vector<DescribedFile> files;
    std::string sha256;  // of its own text
};

bool is_pack_name(const std::string& name);  // 1 to 64 of a-z, 0-9, . _ -

// Nothing when it cannot be read at all; every fault is reported.
std::optional<Descriptor> read_descriptor(const std::string& folder, FaultList& faults);

// A table that the pack holds, and the columns whose references its own rows meet.
struct TableToDescribe {
    const TableShape* table = nullptr;
    std::vector<std::string> inside_references{};
};

// The text of a descriptor: `old_text` brought up to date, or a new one when it is empty. What a person has
// written (title, version, licences, sources, invented, anything unknown) stays. Throws Error(bad_data).
std::string described(const std::string& old_text, const std::string& name, const std::vector<TableToDescribe>& tables);

// `old_text` with the bytes and sha256 of each file, and only those foreign keys that `met` (path, column) has.
std::string sealed(const std::string& old_text, const std::map<std::string, FileStamp>& stamps,
                   const std::vector<std::pair<std::string, std::string>>& met);

std::string read_descriptor_text(const std::string& folder);  // throws Error
void require_json(const std::string& text);  // throws Error(bad_data) for text that is not JSON, or is nested too deep

}  // namespace casebound
