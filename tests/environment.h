// An environment variable for the length of one test; null unsets it. Put back afterwards.
#pragma once

#include <stdlib.h>

#include <optional>
#include <string>

class SetVariable {
public:
    SetVariable(const char* name, const char* value) : name_(name) {
        if (const char* before = getenv(name)) before_ = before;
        put(value);
    }
    ~SetVariable() { put(before_ ? before_->c_str() : nullptr); }
    SetVariable(const SetVariable&) = delete;
    SetVariable& operator=(const SetVariable&) = delete;

private:
    void put(const char* value) const { value ? setenv(name_, value, 1) : unsetenv(name_); }
    const char* name_;
    std::optional<std::string> before_;
};
