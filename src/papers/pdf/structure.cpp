#include "papers/pdf/structure.hpp"

#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageDocumentHelper.hh>
#include <stdexcept>

namespace gallipot::pdf {

namespace {

using Object = QPDFObjectHandle;

Object dictionary(const char* text) {
    return Object::parse(text);
}

/// What else there is to say of an element: 14.8.5.
std::optional<Object> attributes_of(layout::Role role) {
    if (role == layout::Role::column_heading) return dictionary("<</O /Table /Scope /Column>>");
    if (role == layout::Role::numbered_list)
        return dictionary("<</O /List /ListNumbering /Decimal>>");
    return std::nullopt;
}

}  // namespace

std::string_view structure_type(layout::Role role) {
    using layout::Role;
    switch (role) {
        case Role::heading1:
            return "H1";
        case Role::heading2:
            return "H2";
        case Role::paragraph:
            return "P";
        case Role::list:
        case Role::numbered_list:
            return "L";
        case Role::list_item:
            return "LI";
        case Role::list_label:
            return "Lbl";
        case Role::list_body:
            return "LBody";
        case Role::table:
            return "Table";
        case Role::row:
            return "TR";
        case Role::column_heading:
            return "TH";
        case Role::cell:
            return "TD";
        case Role::figure:
            return "Figure";
    }
    throw std::logic_error("a role without a structure type");
}

void Structure::begin_chapter() {
    named_.clear();
}

std::size_t Structure::add(Element element) {
    const std::size_t made = elements_.size();
    auto& kids = element.parent ? elements_.at(*element.parent).kids : tops_;
    kids.push_back({made, {}});
    elements_.push_back(std::move(element));
    return made;
}

void Structure::add_page(const layout::Tags& tags, const std::vector<int>& tag_of_mark) {
    const std::size_t number = pages_.size();
    OnPage& page = pages_.emplace_back();
    for (const layout::Tag& tag : tags) {
        const auto known = named_.find({tag.name, tag.role});
        if (!tag.name.empty() && known != named_.end()) {
            page.of_tag.push_back(known->second);
            continue;
        }
        Element element;
        element.role = tag.role;
        element.alternative = tag.alternative;
        element.language = tag.language;
        if (tag.parent >= 0) element.parent = page.of_tag.at(static_cast<std::size_t>(tag.parent));
        page.of_tag.push_back(add(std::move(element)));
        if (!tag.name.empty()) named_.emplace(std::pair{tag.name, tag.role}, page.of_tag.back());
    }
    for (std::size_t mark = 0; mark < tag_of_mark.size(); ++mark) {
        page.of_mark.push_back(page.of_tag.at(static_cast<std::size_t>(tag_of_mark[mark])));
        elements_[page.of_mark.back()].kids.push_back({{}, {number, static_cast<int>(mark), -1}});
    }
}

void Structure::add_link(std::size_t number, const layout::Link& link) {
    OnPage& page = pages_.at(number);
    Element element;
    element.link = true;
    if (link.tag >= 0) element.parent = page.of_tag.at(static_cast<std::size_t>(link.tag));
    const int index = static_cast<int>(page.of_link.size());
    page.of_link.push_back(add(std::move(element)));
    elements_[page.of_link.back()].kids.push_back({{}, {number, -1, index}});
    page.links_say.push_back(link.says.empty() ? link.uri : link.says);
}

/// Makes the objects of one file.
class Structure::Writer {
  public:
    Writer(const Structure& from, QPDF& file)
        : from_(from), file_(file), pages_(QPDFPageDocumentHelper(file).getAllPages()) {
        if (pages_.size() != from.pages_.size())
            throw std::logic_error("a structure of other pages");
    }

    void operator()(const std::string& title) {
        Object root = file_.makeIndirectObject(dictionary("<</Type /StructTreeRoot>>"));
        Object whole = file_.makeIndirectObject(dictionary("<</Type /StructElem /S /Document>>"));
        whole.replaceKey("/P", root);
        whole.replaceKey("/T", Object::newUnicodeString(title));
        root.replaceKey("/K", whole);
        for (std::size_t i = 0; i < from_.elements_.size(); ++i)
            objects_.push_back(file_.makeIndirectObject(dictionary("<</Type /StructElem>>")));
        link_annotations();
        for (std::size_t i = 0; i < from_.elements_.size(); ++i) fill(i, whole);
        whole.replaceKey("/K", kids(from_.tops_, whole));
        root.replaceKey("/ParentTree", parent_tree());
        root.replaceKey("/ParentTreeNextKey", Object::newInteger(next_key_));
        Object catalog = file_.getRoot();
        catalog.replaceKey("/StructTreeRoot", root);
        catalog.replaceKey("/MarkInfo", dictionary("<</Marked true>>"));
    }

  private:
    void link_annotations() {
        for (std::size_t i = 0; i < pages_.size(); ++i) {
            Object page = pages_[i].getObjectHandle();
            auto& made = annotations_.emplace_back();
            Object list = page.getKey("/Annots");
            for (std::size_t k = 0; k < from_.pages_[i].of_link.size(); ++k) {
                Object annotation = list.getArrayItem(static_cast<int>(k));
                annotation.replaceKey("/Contents",
                                      Object::newUnicodeString(from_.pages_[i].links_say[k]));
                // Printed with the page (ISO 19005-2, 6.3.2).
                annotation.replaceKey("/F", Object::newInteger(4));
                made.push_back(annotation);
            }
            if (!made.empty()) page.replaceKey("/Tabs", Object::newName("/S"));
        }
    }

    void fill(std::size_t index, const Object& whole) {
        const Element& element = from_.elements_[index];
        Object& object = objects_[index];
        object.replaceKey(
            "/S", Object::newName(element.link ? "/Link"
                                               : "/" + std::string(structure_type(element.role))));
        object.replaceKey("/P", element.parent ? objects_[*element.parent] : whole);
        if (const auto more = attributes_of(element.role); more && !element.link)
            object.replaceKey("/A", *more);
        if (!element.alternative.empty())
            object.replaceKey("/Alt", Object::newUnicodeString(element.alternative));
        if (!element.language.empty())
            object.replaceKey("/Lang", Object::newString(element.language));
        object.replaceKey("/K", kids(element.kids, object));
    }

    /// A cell belongs to its row whether anything is written in it or not.
    [[nodiscard]] bool empty(std::size_t index) const {
        const Element& element = from_.elements_[index];
        return element.kids.empty() && element.role != layout::Role::cell &&
               element.role != layout::Role::column_heading;
    }

    /// What an element holds; its first page's content by number alone.
    Object kids(const std::vector<Kid>& kids, Object& of) {
        Object list = Object::newArray();
        std::optional<std::size_t> own_page;
        for (const Kid& kid : kids) {
            if (kid.element) {
                if (!empty(*kid.element)) list.appendItem(objects_[*kid.element]);
                continue;
            }
            Object page = pages_[kid.content.page].getObjectHandle();
            if (!own_page) {
                own_page = kid.content.page;
                of.replaceKey("/Pg", page);
            }
            if (kid.content.link >= 0) {
                Object reference = dictionary("<</Type /OBJR>>");
                reference.replaceKey(
                    "/Obj",
                    annotations_[kid.content.page][static_cast<std::size_t>(kid.content.link)]);
                if (kid.content.page != *own_page) reference.replaceKey("/Pg", page);
                list.appendItem(reference);
            } else if (kid.content.page == *own_page) {
                list.appendItem(Object::newInteger(kid.content.mark));
            } else {
                Object reference = dictionary("<</Type /MCR>>");
                reference.replaceKey("/Pg", page);
                reference.replaceKey("/MCID", Object::newInteger(kid.content.mark));
                list.appendItem(reference);
            }
        }
        return list.getArrayNItems() == 1 ? list.getArrayItem(0) : list;
    }

    /// From pages and links to their elements (14.7.4.4).
    Object parent_tree() {
        Object numbers = Object::newArray();
        const auto add = [&](Object holder, const char* key, const Object& value) {
            holder.replaceKey(key, Object::newInteger(next_key_));
            numbers.appendItem(Object::newInteger(next_key_++));
            numbers.appendItem(value);
        };
        for (std::size_t i = 0; i < pages_.size(); ++i) {
            Object marks = Object::newArray();
            for (const std::size_t element : from_.pages_[i].of_mark)
                marks.appendItem(objects_[element]);
            add(pages_[i].getObjectHandle(), "/StructParents", file_.makeIndirectObject(marks));
            for (std::size_t k = 0; k < annotations_[i].size(); ++k)
                add(annotations_[i][k], "/StructParent", objects_[from_.pages_[i].of_link[k]]);
        }
        Object tree = dictionary("<<>>");
        tree.replaceKey("/Nums", numbers);
        return file_.makeIndirectObject(tree);
    }

    const Structure& from_;
    QPDF& file_;
    std::vector<QPDFPageObjectHelper> pages_;
    std::vector<Object> objects_;                   ///< by element
    std::vector<std::vector<Object>> annotations_;  ///< of links, by page
    long long next_key_ = 0;
};

void Structure::write(QPDF& file, const std::string& title) const {
    Writer(*this, file)(title);
}

}  // namespace gallipot::pdf
