// An own pack seen from outside: whether it is whole, and how many facts of one table are kept in it.
#pragma once

#include <algorithm>
#include <cstdint>
#include <exception>
#include <filesystem>
#include <string>

#include <nlohmann/json.hpp>

#include "core/ground/file_stamp.h"
#include "tests/scratch_folder.h"

inline std::int64_t rows_in(const std::string& file) {
    const auto text = ScratchFolder::read(file);
    return std::count(text.begin(), text.end(), '\n') - 1;
}

// "" when every file is as its sealed descriptor says and each kept fact has its source; `others`: kept facts that are no
// applications.
inline std::string pack_damage(const std::string& pack, std::int64_t others = 0) {
    if (!std::filesystem::exists(pack)) return "";
    try {
        const auto descriptor = nlohmann::json::parse(ScratchFolder::read(pack + "/datapackage.json"));
        for (const auto& resource : descriptor.at("resources")) {
            const auto text = ScratchFolder::read(pack + "/" + resource.at("path").get<std::string>());
            if (resource.at("bytes").get<std::size_t>() != text.size())
                return "bytes of " + resource.at("path").get<std::string>();
            const auto hash = resource.at("hash").get<std::string>();
            if (hash.find(casebound::sha256_of(text)) == std::string::npos)
                return "sha256 of " + resource.at("path").get<std::string>();
        }
        if (rows_in(pack + "/sources.csv") != rows_in(pack + "/applications.csv") + others)
            return "a fact without its source";
    } catch (const std::exception& error) { return error.what(); }
    return "";
}

inline std::int64_t kept_in(const std::string& pack) {
    return std::filesystem::exists(pack) ? rows_in(pack + "/applications.csv") : 0;
}
