#include "core/program/manual.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/program/global_options.h"
#include "core/program/help.h"

namespace casebound {

namespace {

// Text as roff takes it: no escape, no hyphen that a copy would turn into a dash, no request at the start of a line.
std::string roff(std::string_view text) {
    std::string out = !text.empty() && (text[0] == '.' || text[0] == '\'') ? "\\&" : "";
    for (const char c : text) {
        if (c == '\\') out += "\\e";
        else if (c == '-') out += "\\-";
        else out += c;
    }
    return out;
}

std::string option_entry(const OptionSpec& option) {
    return fmt::format(".TP\n\\fB\\-\\-{}\\fR{}\n{}\n", roff(option.name),
                       option.value.empty() ? "" : " \\fI" + roff(option.value) + "\\fR", roff(option_words(option)));
}

std::string command_entry(const Command& command) {
    std::string out = fmt::format(".SS {}{}\n{}.\n", roff(command.name),
                                  command.words.empty() ? "" : " " + roff(command.words), roff(command.summary));
    for (const auto& list : command.lists)
        out += fmt::format(".PP\n{}: {}.\n", roff(list.name), roff(fmt::format("{}", fmt::join(list.words, ", "))));
    for (const auto& option : command.options) out += option_entry(option);
    return out + fmt::format(".PP\nExample:\n.br\n\\fB{}\\fR\n", roff(command.example));
}

}  // namespace

std::string manual_page(const std::vector<Command>& table) {
    std::string out =
        ".TH CASEBOUND 1\n.SH NAME\ncasebound \\- what fits this vehicle, before anything is ordered\n"
        ".SH SYNOPSIS\n.B casebound\n.I COMMAND\n[\\fIWORD\\fR]... [\\fIOPTION\\fR]...\n.br\n"
        ".B casebound\n.I DOMAIN INQUIRY\n[\\fINAME=VALUE\\fR]... [\\fB\\-\\-for\\fR \\fIVEHICLE\\fR]\n"
        ".SH DESCRIPTION\nTells which parts and fluids fit this very vehicle. Where the vehicle is only partly known "
        "it says \\(lqcheck first\\(rq, and names the one thing to go and measure. Every answer carries its reason, "
        "its source, and the weakest evidence it rests on.\n.PP\nFacts come in as packs. Once, after it is installed, "
        "\\fBcasebound pack load \\-\\-reference\\fR loads those of every domain. \\fBcasebound plugin list\\fR names "
        "the domains; \\fBcasebound DOMAIN\\fR lists the inquiries of one.\n.SH COMMANDS\n";
    for (const auto& command : table) out += command_entry(command);
    out += ".SH OPTIONS OF EVERY COMMAND\n";
    for (const auto& option : global_options()) out += option_entry(option.spec);
    out += option_entry({"help", "", "what a command takes"}) + option_entry({"version", "", "version and licence"});
    return out + ".SH EXIT STATUS\n" + roff(usual_exits) +
           "\n.SH FILES\n.TP\n.I ~/.local/share/casebound\nYour folder; \\fBCASEBOUND_HOME\\fR names another one, "
           "\\fBXDG_DATA_HOME\\fR the one above it.\n.TP\n.I shop.sqlite\nin it: your vehicles and records. Keep it "
           "safe.\n.TP\n.I catalog.sqlite\nin it: what the packs say. It can be made again.\n.TP\n.I plugins/\nin it: "
           "domains of your own, each \\fINAME.so\\fR with its pack, the folder \\fINAME\\fR, beside it.\n.SH "
           "ENVIRONMENT\n.TP\n.B "
           "NO_COLOR\nset to anything: no colour, unless \\fB\\-\\-color always\\fR is typed.\n.TP\n.B COLUMNS\nthe "
           "width of the terminal, "
           "where it does not say itself; 40 to 100 are used.\n";
}

}  // namespace casebound
