// A private folder for one test, removed afterwards. Never outside the system's temporary folder.
#pragma once

#include <stdlib.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <system_error>

class ScratchFolder {
public:
    ScratchFolder() {
        std::string name =
            (std::filesystem::canonical(std::filesystem::temp_directory_path()) / "casebound-test-XXXXXX").string();
        if (!::mkdtemp(name.data())) throw std::runtime_error("no scratch folder: " + name);
        path_ = name;
    }
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    const std::string& path() const { return path_; }
    std::string file(const std::string& name) const { return path_ + "/" + name; }

    std::string write(const std::string& name, const std::string& bytes, unsigned mode = 0644) const {
        std::ofstream(file(name), std::ios::binary) << bytes;
        ::chmod(file(name).c_str(), mode);
        return file(name);
    }
    std::string copy(const std::string& from, const std::string& name) const { return write(name, read(from)); }

    static std::string read(const std::string& path) {
        std::ifstream in(path, std::ios::binary);
        if (!in) throw std::runtime_error("cannot read " + path);
        std::ostringstream text;
        text << in.rdbuf();
        return text.str();
    }

private:
    std::string path_;
};
