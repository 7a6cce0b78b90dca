// The options that every command takes: one table for the command line, the manual page and the completions.
#pragma once

#include <string>
#include <vector>

#include "core/session/command.h"

namespace casebound {

struct GlobalOption {
    OptionSpec spec;
    void (*set)(Session::Options&, const std::string&);  // a flag is given ""
};

inline std::vector<GlobalOption> global_options() {
    using Options = Session::Options;
    return {{{"json", "", "answer as JSON (schemas in schema/answers/)"},
             [](Options& options, const std::string&) { options.json = true; }},
            {{"full", "", "everything: all reasons, curves, history"},
             [](Options& options, const std::string&) { options.full = true; }},
            {{"keys", "", "keys beside titles, as packs and --json have them"},
             [](Options& options, const std::string&) { options.keys = true; }},
            {{"no-pager", "", "long answers at once, not page by page"},
             [](Options& options, const std::string&) { options.pager = false; }},
            {{"catalog", "FILE", "catalog file (derived; can be rebuilt)"},
             [](Options& options, const std::string& file) { options.catalog = file; }},
            {{"shop", "FILE", "shop file (precious: your vehicles and records)"},
             [](Options& options, const std::string& file) { options.shop = file; }},
            {{"color", "WHEN", "colour by meaning (default: auto, on a terminal)", false, {"always", "never", "auto"}},
             [](Options& options, const std::string& when) { options.colour = when; }},
            {{"plugins", "FOLDER", "folder with more domains; those shipped win every clash", true},
             [](Options& options, const std::string& folder) { options.plugin_folders.push_back(folder); }}};
}

inline constexpr const char* usual_exits =
    "0 yes or done; 1 no; 2 cannot tell yet; 64 usage; 65 bad data; 66 no input; 73, 74 cannot write; 75 busy; 78 "
    "plugin refused.";

}  // namespace casebound
