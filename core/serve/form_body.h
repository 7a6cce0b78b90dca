// The body of a request as Boost.Beast reads it: a form of fields in memory, within the limit of such a form, or one that
// sends files, whose files go to the disk as they come.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <boost/asio/buffer.hpp>
#include <boost/beast/core/buffers_range.hpp>
#include <boost/beast/http/message.hpp>
#include <boost/optional.hpp>

#include "core/ground/error.h"
#include "core/serve/form_parts.h"

namespace casebound {

// What has come so far.
class SentForm {
public:
    // Before its body is read. No boundary: a form of fields alone.
    void begin(const std::string& boundary, const std::string& folder) {
        if (!boundary.empty()) parts_.emplace(boundary, folder);
    }
    bool take(std::string_view bytes) {
        if (!parts_) {
            text_ += bytes;
            return true;
        }
        try {
            return parts_->take(bytes);
        } catch (const Error& error) {
            failed_ = error.what();
            return false;
        }
    }
    const std::string& failed() const { return failed_; }  // why it cannot be kept; "": it can
    std::optional<FormParts> read();                       // once; nothing for what is no form

private:
    std::string text_, failed_;
    std::optional<PartsReader> parts_;
};

struct FormBody {
    using value_type = SentForm;
    class reader {
    public:
        template <bool is_request, class Head> reader(boost::beast::http::header<is_request, Head>&, value_type& form)
            : form_(form) {}
        void init(const boost::optional<std::uint64_t>&, boost::system::error_code& error) { error = {}; }
        template <class Buffers> std::size_t put(const Buffers& buffers, boost::system::error_code& error) {
            std::size_t taken = 0;
            error = {};
            for (const auto buffer : boost::beast::buffers_range_ref(buffers)) {
                if (!form_.take({static_cast<const char*>(buffer.data()), buffer.size()}))
                    error = boost::beast::http::error::bad_value;
                taken += buffer.size();
            }
            return taken;
        }
        void finish(boost::system::error_code& error) { error = {}; }

    private:
        value_type& form_;
    };
};

}  // namespace casebound
