// The files of a pack against its descriptor, the folder they lie in, and the tables that are known: which file
// fills which table. A path can never lead out of the folder. Reads no CSV file.
#pragma once

#include <string>
#include <vector>

#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_faults.h"
#include "core/pack/pack_shape.h"

namespace casebound {

struct PackFile {
    const TableShape* table = nullptr;
    const DescribedFile* described = nullptr;
    std::string path;  // to open
};

// `known_domains`: domains that packs have used before, loaded today or not.
std::vector<PackFile> files_of(const std::string& folder, const Descriptor& descriptor, const PackShape& shape,
                               const std::vector<std::string>& known_domains, FaultList& faults);

// Why no table of this name is known, and what was meant.
std::string unknown_table(const std::string& table, const PackShape& shape,
                          const std::vector<std::string>& known_domains);

// CSV files in the folder, by name.
std::vector<std::string> csv_files_in(const std::string& folder);

// A file that was sealed must still be what it was.
void check_stamp(const PackFile& file, const FileStamp& stamp, FaultList& faults);

// The declared schemas against the tables: warnings only, because the rows are checked against the tables.
void check_declared(const std::vector<PackFile>& files, FaultList& faults);

}  // namespace casebound
