#include "core/pack/workbook_seal.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "core/ground/replacement.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 4096, hash_digits = 64;

bool is_hash(std::string_view text) {
    return text.size() == hash_digits && std::all_of(text.begin(), text.end(), [](char c) {
               return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
           });
}

}  // namespace

std::string workbook_seal_path(const std::string& workbook) { return workbook + ".sha256"; }

void check_workbook_seal(const std::string& workbook, const FileStamp& stamp, FaultList& faults) {
    const auto path = workbook_seal_path(workbook);
    if (!fs::exists(path)) return;
    const auto sealed = read_whole(path, most_bytes).substr(0, hash_digits);
    if (!is_hash(sealed))
        faults.add(
            {"", 0, 0, "",
             fmt::format("{}: no seal of a workbook: write it anew with `casebound pack check --seal`, or take it "
                         "out",
                         fs::path(path).filename().string())});
    else if (sealed != stamp.sha256)
        faults.add(
            {"", 0, 0, "",
             fmt::format("{}: changed since it was sealed: `casebound pack diff` shows what; run `casebound pack "
                         "check --seal` if the change is meant",
                         fs::path(workbook).filename().string())});
}

void seal_workbook(const std::string& workbook) {
    replace_file(workbook_seal_path(workbook),
                 fmt::format("{}  {}\n", stamp_file(workbook).sha256, fs::path(workbook).filename().string()));
}

}  // namespace casebound
