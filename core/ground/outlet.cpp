#include "core/ground/outlet.h"

#include <fcntl.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdio>

#include <fmt/format.h>

#include "core/ground/colour.h"
#include "core/ground/utf8.h"

namespace casebound {

namespace {

std::vector<std::string>& written() {
    static std::vector<std::string> files;
    return files;
}
std::size_t writings = 0;
bool one_is_not_named = false;  // for want of memory

bool plain_byte(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte >= 0x20 && byte < 0x7f) || c == '\n' || c == '\t';
}

int write_all(int stream, std::string_view text) {
    while (!text.empty()) {
        const auto count = ::write(stream, text.data(), text.size());
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) return count < 0 ? errno : EIO;
        text.remove_prefix(static_cast<std::size_t>(count));
    }
    return 0;
}

}  // namespace

void hold_streams() {
    std::signal(SIGPIPE, SIG_IGN);
    for (int stream = STDIN_FILENO; stream <= STDERR_FILENO; ++stream)
        if (::fcntl(stream, F_GETFD) < 0) ::open("/dev/null", O_RDONLY);  // the lowest free number; cannot be written
}

std::string harmless(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::find_if_not(text.begin() + static_cast<std::ptrdiff_t>(at), text.end(), plain_byte);
        const auto plain = static_cast<std::size_t>(end - text.begin()) - at;
        out += text.substr(at, plain);
        at += plain;
        if (at == text.size()) break;
        const auto length = character_bytes(text, at);
        const auto one = text.substr(at, length);
        if (length == 0) out += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at]));
        else if (steers(one)) out += fmt::format("\\u{:04x}", code_point(one));
        else out += one;
        at += std::max<std::size_t>(length, 1);
    }
    return out;
}

int print_result(std::string_view text) { return write_all(STDOUT_FILENO, with_colours(text, harmless)); }

void send_messages_to(int file) { ::dup2(file, STDERR_FILENO); }

void print_without_memory(std::string_view text) noexcept { write_all(STDERR_FILENO, text); }

void print_message(std::string_view text) { write_all(STDERR_FILENO, harmless(text)); }

bool results_go_to_a_terminal() { return ::isatty(STDOUT_FILENO) == 1; }

bool messages_go_to_a_terminal() { return ::isatty(STDERR_FILENO) == 1; }

std::optional<TerminalSize> terminal_size() {
    struct winsize size {};
    if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return std::nullopt;
    return TerminalSize{size.ws_col, size.ws_row};
}

bool print_paged(std::string_view text, const std::string& pager) {
    constexpr int no_such_command = 127;  // by POSIX, of a shell
    FILE* to = ::popen(pager.c_str(), "w");
    if (!to) return false;
    write_all(::fileno(to), with_colours(text, harmless));  // one who has read enough ends the pager first
    const int status = ::pclose(to);
    return !(WIFEXITED(status) && WEXITSTATUS(status) == no_such_command);
}

void note_written(const std::string& path) noexcept {
    ++writings;
    try {
        if (std::find(written().begin(), written().end(), path) == written().end()) written().push_back(path);
    } catch (const std::bad_alloc&) { one_is_not_named = true; }
}

void forget_written(const std::string& path) { std::erase(written(), path); }

const std::vector<std::string>& written_files() { return written(); }
bool is_anything_written() noexcept { return one_is_not_named || !written().empty(); }
std::size_t times_written() noexcept { return writings; }

}  // namespace casebound
