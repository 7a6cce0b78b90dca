// What is sent from one showing of a form is done once: each form that writes carries an id of its own, and the same
// sent again, by a double click or a reload, gets the first answer and writes nothing. Other words sent with the same
// id, after going back, are another wish. Kept in memory, for the newest thousand; a refused form is not done.
#pragma once

#include <deque>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/ground/secret.h"
#include "core/page/page_request.h"

namespace casebound {

std::string new_form_id();  // the hidden field "once"
constexpr std::size_t form_id_letters = secret_letters;
std::string new_form_ids(std::size_t count);  // one after the other

// The ids that were made in its life, in their order. One at a time.
class FormIdsMade {
public:
    FormIdsMade();
    ~FormIdsMade();
    FormIdsMade(const FormIdsMade&) = delete;
    FormIdsMade& operator=(const FormIdsMade&) = delete;
    const std::vector<std::string>& ids() const { return ids_; }

private:
    friend std::string new_form_id();
    std::vector<std::string> ids_;
};

class FormsDone {
public:
    std::optional<PageReply> answer(const PageRequest& request) const;  // nothing: it is to be done

    // Before it is done, so that it is known whatever fails behind the writing; the reply may still be changed.
    PageReply& begin(const PageRequest& request, PageReply reply);
    void take_back();  // what was begun last: it was refused, and wrote nothing

private:
    std::deque<std::pair<std::string, PageReply>> done_;
};

// Of this process: one page answers for one shop, one request at a time.
FormsDone& forms_done();

}  // namespace casebound
