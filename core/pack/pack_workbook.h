// A pack as one workbook: a sheet a table, named like it, and the sheet `pack` with its name, title and version; the sheet
// `words` lists what cells may say. Read into the same rows, and checked by the same code, as a folder of CSV files.
#pragma once

#include <string>
#include <vector>

#include "core/book/workbook.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_edition.h"
#include "core/pack/pack_files.h"
#include "core/reason/vocabulary.h"

namespace casebound {

inline constexpr const char* pack_sheet = "pack";
inline constexpr const char* words_sheet = "words";

// A workbook of this name that is there.
bool is_pack_workbook(const std::string& path);

class PackBook {
public:
    explicit PackBook(const std::string& path);  // throws Error(no_input or bad_data)

    const FileStamp& stamp() const { return book_.stamp(); }
    // Its files are the sheets of its tables. Nothing when it does not say which pack this is.
    std::optional<Descriptor> descriptor(FaultList& faults) const;
    std::vector<PackFile> files(const Descriptor& descriptor, const PackShape& shape,
                                const std::vector<std::string>& known_domains, FaultList& faults) const;
    void read(const TableShape& table, PackData& data, FaultList& faults) const;  // a table of files()

private:
    std::size_t sheet_of(const std::string& table) const;

    std::string path_;
    Workbook book_;
};

// Where faults lie, once they are found: "items.csv" is the sheet `items` of the workbook.
void place_in_workbook(std::vector<PackFault>& faults, const std::string& path);

// All of a pack, to be written another way.
struct PackContents {
    std::string name, title, version;
    bool invented{};
    PackEdition edition;  // tables without rows too, when they are there
};

// Of a folder or a workbook. Throws Error(bad_data) for what cannot be read as one. The shape must outlive it.
PackContents contents_of(const std::string& pack, const PackShape& shape);
PackContents empty_contents(const std::string& name, const PackShape& shape, const std::vector<std::string>& tables);

// `words`: what cells may say. Throws Error(cannot_write).
void write_pack_workbook(const std::string& path, const PackContents& contents, const Vocabularies& words);
// Into an empty folder: the tables and a descriptor to be brought up to date by new_pack().
void write_pack_tables(const std::string& folder, const PackContents& contents);

}  // namespace casebound
