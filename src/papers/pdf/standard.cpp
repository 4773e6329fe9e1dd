#include "papers/pdf/standard.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <lcms2.h>
#include <memory>
#include <new>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>
#include <stdexcept>
#include <string_view>

#include "papers/pdf/writer.hpp"

namespace gallipot::pdf {

namespace {

using Object = QPDFObjectHandle;

std::string in_xml(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else
            out += c;
    }
    return out;
}

/// Which standards it follows (ISO 19005-2, 6.6.4; ISO 14289-1, clause 5) and what it is. The name
/// space of PDF/UA is none that PDF/A knows, so it is described (ISO 19005-2, 6.6.2.3).
std::string xmp(const About& about) {
    std::string author;
    if (!about.author.empty())
        author = fmt::format("<dc:creator><rdf:Seq><rdf:li>{}</rdf:li></rdf:Seq></dc:creator>\n",
                             in_xml(about.author));
    return fmt::format(
        "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
        "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
        "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n"
        " xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"\n"
        " xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\"\n"
        " xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"\n"
        " xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\"\n"
        " xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">\n"
        "<dc:format>application/pdf</dc:format>\n"
        "<dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{}</rdf:li></rdf:Alt></dc:title>\n"
        "{}"
        "<dc:language><rdf:Bag><rdf:li>{}</rdf:li></rdf:Bag></dc:language>\n"
        "<pdfaid:part>2</pdfaid:part>\n<pdfaid:conformance>A</pdfaid:conformance>\n"
        "<pdfuaid:part>1</pdfuaid:part>\n"
        "<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">\n"
        "<pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>\n"
        "<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>\n"
        "<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>\n"
        "<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">\n"
        "<pdfaProperty:name>part</pdfaProperty:name>\n"
        "<pdfaProperty:valueType>Integer</pdfaProperty:valueType>\n"
        "<pdfaProperty:category>internal</pdfaProperty:category>\n"
        "<pdfaProperty:description>Part of ISO 14289 followed</pdfaProperty:description>\n"
        "</rdf:li></rdf:Seq></pdfaSchema:property>\n"
        "</rdf:li></rdf:Bag></pdfaExtension:schemas>\n"
        "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n",
        in_xml(about.title), author, in_xml(about.language));
}

/// The profile of sRGB (IEC 61966-2-1), with a fixed day instead of today's.
std::string srgb_profile() {
    const std::unique_ptr<void, decltype(&cmsCloseProfile)> profile(cmsCreate_sRGBProfile(),
                                                                    &cmsCloseProfile);
    cmsUInt32Number size = 0;
    if (!profile || cmsSaveProfileToMem(profile.get(), nullptr, &size) == 0)
        throw PdfError("lcms2 makes no profile of sRGB");
    std::string bytes(size, '\0');
    if (cmsSaveProfileToMem(profile.get(), bytes.data(), &size) == 0)
        throw PdfError("lcms2 makes no profile of sRGB");
    // Bytes 24 to 35: when it was made, in six numbers of 16 bits (ICC.1:2010, 7.2.1).
    constexpr std::array<char, 12> first_of_2000{0x07, '\xD0', 0, 1, 0, 1, 0, 0, 0, 0, 0, 0};
    std::copy(first_of_2000.begin(), first_of_2000.end(), bytes.begin() + 24);
    return bytes;
}

void describe(QPDF& file, const About& about) {
    Object catalog = file.getRoot();
    Object metadata = Object::newStream(&file, xmp(about));
    metadata.getDict().replaceKey("/Type", Object::newName("/Metadata"));
    metadata.getDict().replaceKey("/Subtype", Object::newName("/XML"));
    catalog.replaceKey("/Metadata", metadata);

    static const std::string srgb = srgb_profile();
    Object profile = Object::newStream(&file, srgb);
    profile.getDict().replaceKey("/N", Object::newInteger(3));
    Object intent = Object::parse(
        "<</Type /OutputIntent /S /GTS_PDFA1 /OutputConditionIdentifier (sRGB)"
        " /Info (sRGB IEC61966-2.1)>>");
    intent.replaceKey("/DestOutputProfile", profile);
    Object intents = Object::newArray();
    intents.appendItem(intent);
    catalog.replaceKey("/OutputIntents", intents);

    // What both say must be the same (ISO 19005-2, 6.6.3): so the older form says no more.
    Object info = Object::newDictionary();
    info.replaceKey("/Title", Object::newUnicodeString(about.title));
    if (!about.author.empty()) info.replaceKey("/Author", Object::newUnicodeString(about.author));
    file.getTrailer().replaceKey("/Info", file.makeIndirectObject(info));
}

}  // namespace

std::string to_standard(const std::string& bytes, const Structure& structure, const About& about) {
    QPDF file;
    file.setSuppressWarnings(true);
    try {
        file.processMemoryFile("paper", bytes.data(), bytes.size());
        structure.write(file, about.title);
        describe(file, about);
        QPDFWriter writer(file);
        writer.setOutputMemory();
        writer.setObjectStreamMode(qpdf_o_generate);
        writer.setDecodeLevel(qpdf_dl_none);
        writer.setCompressStreams(true);
        writer.setNewlineBeforeEndstream(true);
        writer.setMinimumPDFVersion("1.7");
        writer.setDeterministicID(true);
        writer.write();
        const auto written = writer.getBufferSharedPointer();
        return {reinterpret_cast<const char*>(written->getBuffer()), written->getSize()};
    } catch (const QPDFExc& fault) {
        // Where memory runs out while it reads, it takes the file for a damaged one.
        for (const QPDFExc& warning : file.getWarnings())
            if (std::string_view(warning.what()).find("bad_alloc") != std::string_view::npos)
                throw std::bad_alloc();
        throw PdfError(std::string("libqpdf: ") + fault.what());
    } catch (const std::runtime_error& fault) {
        // zlib's, in its own words.
        if (std::string_view(fault.what()).find("insufficient memory") != std::string_view::npos)
            throw std::bad_alloc();
        throw;
    }
}

}  // namespace gallipot::pdf
