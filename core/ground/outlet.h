// Where text leaves the program: nothing else writes to standard output or standard error. Whatever its source, no
// character that a terminal would act on gets out: control characters, C1 and marks of direction are shown as \x1b or
// \u202e, which a JSON text reads back as the same character. A stream that is closed or full ends nothing.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

// At the start: a standard stream that is closed is held, so that no file opened later takes its number and gets the
// messages; and a reader that has gone is an error to be met, no signal.
void hold_streams();

// As above. Line ends and tabs stay, every other text stays as it is.
std::string harmless(std::string_view text);

// 0, or the errno of why it could not be written whole. Marks of colour.h become colours here.
int print_result(std::string_view text);
void print_message(std::string_view text);                  // standard error, when anybody listens
void print_without_memory(std::string_view text) noexcept;  // as it is, to standard error

void send_messages_to(int file);  // in a child: whatever it and its libraries say on standard error

// Who reads along: a person at a terminal, or a file or program.
bool results_go_to_a_terminal();
bool messages_go_to_a_terminal();
struct TerminalSize {
    std::size_t columns, rows;
};
std::optional<TerminalSize> terminal_size();  // of the terminal that results go to, when it says

// As print_result, through `pager`, a command of the shell that reads its standard input ("less -FRX"). False when there
// is no such command: nothing was shown then.
bool print_paged(std::string_view text, const std::string& pager);

// Files that this run has written because it was asked to, in the order they were first written: what is still so when
// the answer cannot be shown.
void note_written(const std::string& path) noexcept;
void forget_written(const std::string& path);  // written for its own sake, as when a file is brought up to date
const std::vector<std::string>& written_files();
bool is_anything_written() noexcept;   // also where there was no memory for its name
std::size_t times_written() noexcept;  // by this process, to see whether more was written since

}  // namespace casebound
