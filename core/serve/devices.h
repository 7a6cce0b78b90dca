// The devices that were let in by a token: each has a cookie of its own, is listed, and can be put out. Kept in memory
// alone: when the page ends, all are out. Knows no socket.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

struct Device {
    int number{};              // from 1, never given twice
    std::string cookie, name;  // name: what its browser calls itself
    std::string seen;          // time stamps (dates.h)
    std::string let_in;
};

inline constexpr std::string_view devices_path = "/devices", entry_path = "/enter";

class Devices {
public:
    static constexpr std::size_t most = 16;

    bool full() const { return all_.size() >= most; }
    const Device& let_in(std::string_view name);
    bool knows(std::string_view cookie);  // and has seen it now
    bool put_out(int number);             // false: there is none of that number
    const std::vector<Device>& all() const { return all_; }

private:
    std::vector<Device> all_;
    int last_ = 0;
};

// Each with a form that puts it out; sent to devices_path. `entry`: the address that lets in one more, "" for none.
std::string devices_page(const Devices& devices, const std::string& entry, const std::string& form_token);

// A form that lets this device in. To look at it uses nothing up.
std::string entry_page(const std::string& entry_token);

}  // namespace casebound
