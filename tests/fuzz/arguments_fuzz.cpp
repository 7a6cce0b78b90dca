// Words typed, one a line, against the table of commands: taken with as many words as the command takes, or refused with
// what to type. Runs nothing.
#include "core/ground/error.h"
#include "core/program/typed_words.h"
#include "tests/fuzz/target.h"

using namespace casebound;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const auto table = commands();
    const auto words = fuzz::pieces(fuzz::text_of(data, size), '\n');
    try {
        Session::Options options;
        const auto typed = typed_command(words, table, options);
        fuzz::promised(typed.command != nullptr, "what is taken is a command");
        fuzz::promised(
            typed.args.words.size() >= typed.command->least && typed.args.words.size() <= typed.command->most,
            "a command has the words it takes");
        for (const auto& [name, values] : typed.args.options) fuzz::promised(!name.empty(), "an option has a name");
    } catch (const Error& error) { fuzz::promised(*error.what() != '\0', "a refusal says what to type"); }
    fuzz::promised(first_word(words) <= words.size(), "the first word is one of them");
    return 0;
}
