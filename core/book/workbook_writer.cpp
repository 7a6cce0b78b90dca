#include "core/book/workbook_writer.h"

#include <dlfcn.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <new>

#include <fmt/format.h>

#include "core/book/workbook_readback.h"
#include "core/ground/child_work.h"
#include "core/ground/error.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"

namespace casebound {

namespace {

// Loaded when a workbook is written: linked in, it made every start half as long again, because of what it needs itself.
class Library {
public:
    Library() : handle_(::dlopen(CASEBOUND_XLSXWRITER, RTLD_NOW | RTLD_LOCAL)) {
        if (!handle_)
            throw Error(Exit::cannot_create, fmt::format("the library that writes workbooks, {}, is not installed: "
                                                         "install it, or write a folder of CSV files instead",
                                                         CASEBOUND_XLSXWRITER));
    }
    template <class Call> Call* call(const char* name) const {
        auto* const found = reinterpret_cast<Call*>(::dlsym(handle_, name));
        if (!found) throw Error(Exit::cannot_create, fmt::format("{} has no {}", CASEBOUND_XLSXWRITER, name));
        return found;
    }

private:
    void* handle_;  // stays loaded
};

#define CASEBOUND_CALL(name) decltype(::name)* const name = library.call<decltype(::name)>(#name)
struct Calls {
    Library library;
    CASEBOUND_CALL(workbook_new);
    CASEBOUND_CALL(workbook_set_properties);
    CASEBOUND_CALL(workbook_add_worksheet);
    CASEBOUND_CALL(workbook_add_format);
    CASEBOUND_CALL(workbook_close);
    CASEBOUND_CALL(lxw_workbook_free);
    CASEBOUND_CALL(format_set_num_format);
    CASEBOUND_CALL(format_set_bold);
    CASEBOUND_CALL(worksheet_set_column);
    CASEBOUND_CALL(worksheet_write_string);
    CASEBOUND_CALL(worksheet_write_comment_opt);
    CASEBOUND_CALL(worksheet_freeze_panes);
    CASEBOUND_CALL(worksheet_data_validation_range);
    CASEBOUND_CALL(lxw_strerror);
};
#undef CASEBOUND_CALL

constexpr std::size_t most_listed = 255;  // characters of a list that stands with its cell

// _x0041_ in a text would be read as a character by its number: the mark before it says that it is none.
std::string escaped(const std::string& text) {
    const auto hex = [](char c) { return std::isxdigit(static_cast<unsigned char>(c)) != 0; };
    std::string out;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool looks = text.compare(at, 2, "_x") == 0 && at + 6 < text.size() && text[at + 6] == '_' &&
                           std::all_of(text.begin() + static_cast<std::ptrdiff_t>(at) + 2,
                                       text.begin() + static_cast<std::ptrdiff_t>(at) + 6, hex);
        out += looks ? "_x005F_" : std::string(1, text[at]);
    }
    return out;
}

// Where the library gets no memory it says so, or gives its own word for what it could not find, or crashes.
class Writer {
public:
    Writer(const std::string& beside, const std::string& path) : path_(path) {
        errno = 0;
        book_ = had(calls_.workbook_new(beside.c_str()));
        lxw_doc_properties properties{};
        properties.created = 946684800;  // one day for all, 2000-01-01, so that the same sheets give the same file
        check(calls_.workbook_set_properties(book_, &properties));
        text_ = had(calls_.workbook_add_format(book_));
        calls_.format_set_num_format(text_, "@");
        head_ = had(calls_.workbook_add_format(book_));
        calls_.format_set_num_format(head_, "@");
        calls_.format_set_bold(head_);
    }
    ~Writer() {
        if (book_) calls_.lxw_workbook_free(book_);
    }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;

    void add(const BookSheet& sheet) {
        place_ = sheet.name;
        sheet_ = calls_.workbook_add_worksheet(book_, sheet.name.c_str());
        if (!sheet_) refuse("its name is too long for a sheet, or there twice");
        if (!sheet.columns.empty()) add_header(sheet.columns);
        for (std::size_t i = 0; i < sheet.widths.size(); ++i) set_width(i, sheet.widths[i]);
        const lxw_row_t first = sheet.columns.empty() ? 0 : 1;
        for (std::size_t row = 0; row < sheet.rows.size(); ++row)
            for (std::size_t i = 0; i < sheet.rows[row].size(); ++i)
                write(first + static_cast<lxw_row_t>(row), i, sheet.rows[row][i], text_);
        for (std::size_t row = 0; row < sheet.beside.size(); ++row)
            offer(static_cast<lxw_row_t>(row), static_cast<lxw_row_t>(row), 1, sheet.beside[row]);
    }

    void close() {
        const auto error = calls_.workbook_close(std::exchange(book_, nullptr));
        if (error == LXW_NO_ERROR) return;
        if (is_memory(error)) throw std::bad_alloc();
        throw Error(Exit::cannot_write,
                    fmt::format("{}: {}: check permissions and space", path_, calls_.lxw_strerror(error)));
    }

private:
    void add_header(const std::vector<BookColumn>& columns) {
        calls_.worksheet_freeze_panes(sheet_, 1, 0);
        for (std::size_t i = 0; i < columns.size(); ++i) {
            const auto& column = columns[i];
            set_width(i, column.width);
            write(0, i, column.name, head_);
            if (!column.meaning.empty()) {
                lxw_comment_options options{};
                options.x_scale = 2;
                check(calls_.worksheet_write_comment_opt(sheet_, 0, static_cast<lxw_col_t>(i), column.meaning.c_str(),
                                                         &options));
            }
            offer(1, LXW_ROW_MAX - 1, i, column);
        }
    }

    void offer(lxw_row_t first, lxw_row_t last, std::size_t at, const BookColumn& column) {
        if (column.choices.empty() && column.choices_from.empty()) return;
        std::vector<std::string> words = column.choices;
        std::vector<char*> list;
        std::size_t size = 0;
        for (auto& word : words) {
            list.push_back(word.data());
            size += word.size() + 1;
        }
        list.push_back(nullptr);
        if (column.choices_from.empty() && size > most_listed) return;
        std::string from = "=" + column.choices_from;
        lxw_data_validation offered{};
        offered.validate = column.choices_from.empty() ? LXW_VALIDATION_TYPE_LIST : LXW_VALIDATION_TYPE_LIST_FORMULA;
        offered.value_list = list.data();
        if (!column.choices_from.empty()) {
            offered.value_list = nullptr;
            offered.value_formula = from.data();
        }
        offered.ignore_blank = LXW_VALIDATION_ON;
        offered.show_error = column.only_these ? LXW_VALIDATION_ON : LXW_VALIDATION_OFF;
        const auto col = static_cast<lxw_col_t>(at);
        check(calls_.worksheet_data_validation_range(sheet_, first, col, last, col, &offered));
    }

    void set_width(std::size_t at, unsigned width) {
        const auto col = static_cast<lxw_col_t>(at);
        check(calls_.worksheet_set_column(sheet_, col, col, width, text_));
    }
    void write(lxw_row_t row, std::size_t at, const std::string& text, lxw_format* format) {
        if (text.empty()) return;
        const auto error = calls_.worksheet_write_string(sheet_, row, static_cast<lxw_col_t>(at), escaped(text).c_str(),
                                                         format);
        if (error == LXW_NO_ERROR) return;
        place_ = fmt::format("{}, row {}", place_, row + 1);
        check(error);
    }

    void check(lxw_error error) const {
        if (is_memory(error)) throw std::bad_alloc();
        if (error != LXW_NO_ERROR) refuse(calls_.lxw_strerror(error));
    }
    static bool is_memory(lxw_error error) {
        return error == LXW_ERROR_MEMORY_MALLOC_FAILED || error == LXW_ERROR_SHARED_STRING_INDEX_NOT_FOUND ||
               (error != LXW_NO_ERROR && errno == ENOMEM);
    }
    template <class Made> static Made* had(Made* made) {
        if (!made) throw std::bad_alloc();
        return made;
    }
    [[noreturn]] void refuse(std::string_view what) const {
        if (errno == ENOMEM) throw std::bad_alloc();
        throw Error(Exit::usage,
                    fmt::format("{}: sheet {}: {}: a workbook has no room for it: keep the folder of CSV files", path_,
                                place_, what));
    }

    const Calls calls_{};
    std::string path_, place_;
    lxw_workbook* book_ = nullptr;
    lxw_worksheet* sheet_ = nullptr;
    lxw_format *text_ = nullptr, *head_ = nullptr;
};

void write_with_library(const std::string& beside, const std::string& path, const std::vector<BookSheet>& sheets) {
    Writer writer(beside, path);
    for (const auto& sheet : sheets) writer.add(sheet);
    writer.close();
}

}  // namespace

void write_workbook(const std::string& path, const std::vector<BookSheet>& sheets) {
    const std::string beside = fmt::format("{}.new-{}", path, ::getpid());
    try {
        replace_file(beside, "");  // said here when it cannot be: the library has no good words for it
        forget_written(beside);
        const auto end = work_in_child([&] { write_with_library(beside, path, sheets); });
        if (!end.whole)
            throw Error(Exit::busy,
                        fmt::format("{}: the library that writes workbooks crashed ({}), as it does where it "
                                    "gets no memory: nothing was changed; end other programs and try "
                                    "again, or keep the folder of CSV files",
                                    path, end.how));
        // It says on standard error what it has left out, and ends well; of a full disk it may say nothing.
        if (!end.said.empty() || !reads_back(beside, sheets))
            throw Error(Exit::cannot_write,
                        fmt::format("{}: the library that writes workbooks could not write it whole: nothing was "
                                    "changed; check memory, and space here and in the temporary folder, or keep the "
                                    "folder of CSV files",
                                    path));
        put_in_place(beside, path);
    } catch (...) {
        ::unlink(beside.c_str());
        throw;
    }
}

}  // namespace casebound
