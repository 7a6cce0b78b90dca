#include "core/host/plugin_host.h"

#define BOOST_DLL_USE_STD_FS
#include <boost/dll/shared_library.hpp>

#include <cxxabi.h>
#include <dlfcn.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <memory>
#include <set>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/host/domain_check.h"
#include "core/host/domain_watch.h"
#include "core/host/manifest_reader.h"
#include "core/host/plugin_probe.h"
#include "core/host/probe_record.h"
#include "core/host/trusted_path.h"
#include "core/reason/vocabulary.h"
#include "core/store/domain_schema.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& what) { throw Error(Exit::refused, what); }

// A domain that is left out for want of memory would make another answer: nothing is answered then.
void require_memory(const std::error_code& fault) {
    if (fault == std::errc::not_enough_memory) throw std::bad_alloc();
}

// ------------------------------------------------------------------ shared libraries

// What the loader says, without the path and with C++ names readable:
// "PATH: undefined symbol: _ZN1a1bEv, version V" becomes "undefined symbol: a::b(), version V".
std::string loader_words(const std::string& path) {
    const char* said = ::dlerror();
    std::string text = said ? said : "the loader does not say why";
    if (text.rfind(path + ": ", 0) == 0) text.erase(0, path.size() + 2);
    const auto at = text.find("_Z");
    if (at == std::string::npos) return text;
    const std::string mangled = text.substr(at, text.find_first_of(", ", at) - at);
    const std::unique_ptr<char, decltype(&std::free)> name(
        abi::__cxa_demangle(mangled.c_str(), nullptr, nullptr, nullptr), &std::free);
    return name ? text.replace(at, mangled.size(), name.get()) : text;
}

// Plugins are never unloaded: what they gave may be in use until the program ends.
const Manifest& open_library(const std::string& path) {
    static auto* const kept = new std::vector<boost::dll::shared_library>;
    boost::dll::shared_library library;
    std::error_code fault;
    errno = 0;
    library.load(path, fault, boost::dll::load_mode::rtld_now | boost::dll::load_mode::rtld_local);
    if (fault) {
        require_memory({errno, std::generic_category()});  // the loader's own code says only that it failed
        refuse(fmt::format("cannot be loaded ({}): build it again on this machine, with all it needs",
                           loader_words(path)));
    }
    kept->push_back(std::move(library));
    if (!kept->back().has("casebound_manifest"))
        refuse("does not export casebound_manifest: build it with CASEBOUND_MANIFEST and the version script");
    return kept->back().get<const Manifest>("casebound_manifest");
}

const Domain& open_domain(const std::string& path, const ManifestText& read, const ProbeSteps& step) {
    step("while it was loaded");
    const std::string loading = "its loading";
    const RunningHook running(read.domain, loading);
    const Manifest& manifest = open_library(path);
    const auto differs = [](const char* field, std::size_t size, const std::string& text) {
        return ::strnlen(field, size) != text.size() || text.compare(0, text.size(), field, text.size()) != 0;
    };
    if (differs(manifest.stamp, sizeof manifest.stamp, read.stamp) ||
        differs(manifest.domain, sizeof manifest.domain, read.domain) || !manifest.domain_instance)
        refuse(
            "the manifest in memory is not the one in the file: build it with CASEBOUND_MANIFEST, once, and nothing "
            "else in that section");
    step("in domain_instance()");
    return manifest.domain_instance();
}

// ------------------------------------------------------------------ texts

// Bytes of the UTF-8 character (RFC 3629, section 4) at the beginning of `text`, 0 when there is none.
std::size_t character_size(std::string_view text) {
    const auto byte = [&](std::size_t at) { return at < text.size() ? static_cast<unsigned char>(text[at]) : 0U; };
    const std::size_t size = byte(0) < 0x80   ? 1
                             : byte(0) < 0xc2 ? 0
                             : byte(0) < 0xe0 ? 2
                             : byte(0) < 0xf0 ? 3
                             : byte(0) < 0xf5 ? 4
                                              : 0;
    for (std::size_t at = 1; at < size; ++at)
        if ((byte(at) & 0xc0) != 0x80) return 0;
    const unsigned two = byte(0) << 8 | byte(1);  // overlong, surrogate, beyond U+10FFFF
    const bool outside = (two >= 0xe080 && two < 0xe0a0) || (two >= 0xeda0 && two < 0xedc0) ||
                         (two >= 0xf080 && two < 0xf090) || (two >= 0xf490 && two < 0xf4c0);
    return size > 1 && outside ? 0 : size;
}

// A plugin's words may end in a message: what a terminal would act on, or no reader could decode, becomes `?`.
std::string printable(std::string_view text) {
    std::string shown;
    while (!text.empty()) {
        const std::size_t size = character_size(text);
        const bool control = size <= 1 &&
                             (size == 0 || text[0] == 0x7f || (text[0] >= 0 && text[0] < ' ' && text[0] != '\n'));
        if (control) shown += '?';
        else shown += text.substr(0, size);
        text.remove_prefix(std::max<std::size_t>(size, 1));
    }
    return shown;
}

// ------------------------------------------------------------------ files

ManifestText read_fitting_manifest(const std::string& path) {
    ManifestText manifest = read_manifest(path);
    if (manifest.stamp != build_stamp())
        refuse(
            fmt::format("built for another casebound: its stamp is \"{}\", this program's is \"{}\": build it again "
                        "from this program's source",
                        manifest.stamp, build_stamp()));
    if (!is_snake_case(manifest.domain))
        refuse(fmt::format("its domain name `{}` is not snake_case: rename the domain", manifest.domain));
    return manifest;
}

// Where the link leads, "" when that file stands in the folder under a name that is looked at anyway.
std::string followed(const fs::path& link, const fs::path& folder) {
    std::error_code fault;
    const fs::path target = fs::canonical(link, fault);
    require_memory(fault);
    if (fault) refuse("a link that leads nowhere: take it out of the folder");
    if (target.parent_path() != folder)
        refuse(
            fmt::format("a link that leaves the folder, to {}: copy the file itself into the folder", target.string()));
    return target.extension() == ".so" ? std::string() : target.string();
}

// ------------------------------------------------------------------ one run over all folders

class Loading {
public:
    Loading(const std::string& probe_record, const ReservedNames& reserved)
        : record_(probe_record), reserved_(reserved) {}

    void look_into(const std::string& named) {
        std::error_code fault;
        const fs::path folder = fs::canonical(named, fault);
        require_memory(fault);
        if (fault == std::errc::no_such_file_or_directory || !folders_.insert(folder.string()).second) return;
        if (fault) return leave_out(named, fmt::format("cannot be looked at ({}): make it readable", fault.message()));
        if (auto distrust = folder_fault(folder.string(), ::geteuid()); !distrust.empty())
            return leave_out(folder.string(), distrust);
        std::set<std::pair<std::string, std::string>> found;
        for (fs::directory_iterator entry(folder, fault), end; !fault && entry != end; entry.increment(fault))
            if (entry->path().extension() == ".so")
                found.insert({entry->path().string(), entry->is_symlink() ? folder.string() : std::string()});
        files_.insert(files_.end(), found.begin(), found.end());
        require_memory(fault);
        if (fault) leave_out(folder.string(), fmt::format("cannot be listed ({}): make it readable", fault.message()));
    }

    Plugins finish() {
        for (const auto& [path, linked_in] : files_) try_file(path, linked_in);
        record_.save();
        const auto by_name = [](const LoadedDomain& a, const LoadedDomain& b) { return a.name < b.name; };
        const auto by_path = [](const RefusedPlugin& a, const RefusedPlugin& b) { return a.path < b.path; };
        std::sort(plugins_.domains.begin(), plugins_.domains.end(), by_name);
        std::stable_sort(plugins_.refused.begin(), plugins_.refused.end(), by_path);
        return std::move(plugins_);
    }

private:
    void leave_out(const std::string& path, std::string_view reason) {
        plugins_.refused.push_back({path, printable(reason)});
    }

    void try_file(const std::string& path, const std::string& linked_in) {
        try {
            const std::string real = linked_in.empty() ? path : followed(path, linked_in);
            if (!real.empty()) load(path, real);
        } catch (const Error& error) { leave_out(path, error.what()); }
    }

    void load(const std::string& path, const std::string& real) {
        if (auto distrust = file_fault(real, ::geteuid()); !distrust.empty()) refuse(distrust);
        const ManifestText manifest = read_fitting_manifest(real);
        refuse_taken_name(path, manifest.domain);
        probe_unless_known(real, manifest);
        const Domain* domain = nullptr;
        try {
            domain = &open_domain(real, manifest, [](std::string_view) {});
        } catch (const Error&) { throw; } catch (const std::bad_alloc&) {
            throw;  // an answer without the domain would be another
        } catch (const std::exception& error) {
            refuse(
                fmt::format("passed its probe, and then threw an exception ({}): tell whoever made it", error.what()));
        } catch (...) {
            refuse("passed its probe, and then threw something that is no std::exception: tell whoever made it");
        }
        auto vocabulary = GuardedDomain(manifest.domain, *domain).vocabulary();
        if (!vocabulary) refuse(fmt::format("passed its probe, and then {}: tell whoever made it", vocabulary.failure));
        LoadedDomain loaded(manifest.domain, path, *domain, std::move(*vocabulary));
        refuse_taken_words(loaded);
        plugins_.domains.push_back(std::move(loaded));
    }

    // Tables of `a` and `a_b` could not be told apart by their first part, so both cannot be loaded.
    void refuse_taken_name(const std::string& path, const std::string& name) const {
        const auto inside = [](const std::string& a, const std::string& b) { return b.rfind(a + "_", 0) == 0; };
        if (is_core_name(name))
            refuse(fmt::format("domain `{}` has the name of something of core: rename the domain", name));
        if (reserved_.contains(name))
            refuse(
                fmt::format("domain `{}` has the name of a command, so nobody could ask it: rename the domain", name));
        for (const auto& other : plugins_.domains) {
            if (other.name == name)
                refuse(fmt::format("domain `{}` is loaded from {} already, so {} is left out: keep one of the two",
                                   name, other.path, path));
            if (inside(other.name, name) || inside(name, other.name))
                refuse(fmt::format(
                    "tables of domain `{}` could not be told from those of `{}`, loaded from {}: rename one of the two",
                    name, other.name, other.path));
        }
    }

    void probe_unless_known(const std::string& path, const ManifestText& manifest) {
        const auto identity = identity_of(path);
        if (!identity || record_.knows(path, *identity)) return;
        const std::string sha256 = sha256_of_file(path);
        if (!record_.knows_content(sha256)) {
            const auto work = [&](const ProbeSteps& step) {
                check_domain(open_domain(path, manifest, step), manifest.domain, step);
            };
            if (auto fault = probe_fault(work); !fault.empty()) refuse(fault);
        }
        if (identity_of(path) == identity) record_.add(path, *identity, sha256);
    }

    void refuse_taken_words(const LoadedDomain& loaded) {
        const auto clashes = words_.add(loaded.vocabulary, loaded.name);
        if (clashes.empty()) return;
        words_ = Vocabularies();  // without the words that were taken before the clash
        for (const auto& domain : plugins_.domains) words_.add(domain.vocabulary, domain.name);
        throw Error(Exit::refused, clashes);
    }

    ProbeRecord record_;
    const ReservedNames& reserved_;
    Vocabularies words_;
    Plugins plugins_;
    std::set<std::string> folders_;
    std::vector<std::pair<std::string, std::string>> files_;  // path, and the folder when it is a link in it
};

}  // namespace

const GuardedDomain* Plugins::find(std::string_view domain) const {
    const auto at = std::find_if(domains.begin(), domains.end(),
                                 [&](const LoadedDomain& one) { return one.name == domain; });
    return at == domains.end() ? nullptr : &at->domain;
}

Plugins load_plugins(const std::vector<std::string>& folders, const std::string& probe_record,
                     const ReservedNames& reserved) {
    Loading loading(probe_record, reserved);
    for (const auto& folder : folders) loading.look_into(folder);
    return loading.finish();
}

std::string_view build_stamp() { return CASEBOUND_STAMP; }

}  // namespace casebound
