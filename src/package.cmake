# What is installed beside the program, and the Debian package: `cpack --config build/release/CPackConfig.cmake`.

set(doc ${CMAKE_INSTALL_DATADIR}/doc/gallipot)
# The pages keep their folders, and what they link to comes along, so that every link holds as installed:
# ctest's docs_installed follows them.
file(GLOB_RECURSE pages CONFIGURE_DEPENDS RELATIVE ${CMAKE_SOURCE_DIR} ${CMAKE_SOURCE_DIR}/src/*.md
     ${CMAKE_SOURCE_DIR}/tests/*.md)
set(linked)
foreach(page README.md DEVELOPERS.md templates/README.md fonts/README.md ${pages})
  list(APPEND linked ${page})
  file(READ ${CMAKE_SOURCE_DIR}/${page} text)
  # Brackets and semicolons mean something in a list.
  string(REPLACE "](" "@to@" text "${text}")
  string(REGEX REPLACE "[][;]" "" text "${text}")
  string(REGEX MATCHALL "@to@[^)#: ]+" links "${text}")
  cmake_path(GET page PARENT_PATH folder)
  foreach(link ${links})
    string(REPLACE "@to@" "" link "${link}")
    cmake_path(SET target NORMALIZE "${folder}/${link}")
    string(REGEX REPLACE "^/|/$" "" target "${target}")
    list(APPEND linked ${target})
  endforeach()
endforeach()
list(REMOVE_DUPLICATES linked)
foreach(file ${linked})
  cmake_path(GET file PARENT_PATH folder)
  if(IS_DIRECTORY ${CMAKE_SOURCE_DIR}/${file})
    install(DIRECTORY ${CMAKE_SOURCE_DIR}/${file} DESTINATION ${doc}/${folder}
            FILES_MATCHING PATTERN "*.md" PATTERN "*.json" PATTERN "*.yaml" PATTERN "*.csv")
  elseif(EXISTS ${CMAKE_SOURCE_DIR}/${file})
    install(FILES ${CMAKE_SOURCE_DIR}/${file} DESTINATION ${doc}/${folder})
  endif()
endforeach()
install(DIRECTORY ${CMAKE_SOURCE_DIR}/examples/ DESTINATION ${doc}/examples
        FILES_MATCHING PATTERN "*.yaml" PATTERN "*.csv" PATTERN "*.png")

# The licence as Debian wants it told: the machine-readable form of copyright files ("DEP-5").
file(STRINGS ${CMAKE_SOURCE_DIR}/LICENSE licence ENCODING UTF-8)
list(POP_FRONT licence licence_name)
set(copyright_line)
set(licence_text)
foreach(line IN LISTS licence)
  if(line MATCHES "^Copyright (\\(c\\) )?(.*)")
    set(copyright_line ${CMAKE_MATCH_2})
  elseif(line STREQUAL "")
    string(APPEND licence_text " .\n")
  else()
    string(APPEND licence_text " ${line}\n")
  endif()
endforeach()
string(REGEX REPLACE "^( \\.\n)+" "" licence_text "${licence_text}")
file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/package/copyright @ONLY CONTENT
"Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/
Upstream-Name: gallipot
Comment: The text below is that of the file LICENSE in the source.

Files: *
Copyright: @copyright_line@
License: Expat

License: Expat
@licence_text@")
install(FILES ${CMAKE_BINARY_DIR}/package/copyright DESTINATION ${doc})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME gallipot)
set(CPACK_PACKAGE_VENDOR "gallipot's maintainers")
set(CPACK_PACKAGE_CONTACT "gallipot's maintainers <maintainers@gallipot.example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "mixing cards, labels and a visit log for home-mixed baits")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"From one job file it works out how baits and timber treatments of borax, boric
acid, sugar and water are measured with the spoons and scales there are, and
prints a card for each mix, a warning label with a code for every container, a
sheet for the household, a plan and visit sheets.
It keeps the log that a scan of a label opens, and says whether the baits work.
It never says that a home-made bait is lawful or does no harm.")
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS fonts-noto-core)
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS fonts-droid-fallback)  # Chinese, Japanese and Korean letters
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
    WORLD_READ WORLD_EXECUTE)
set(CPACK_PACKAGE_DIRECTORY ${CMAKE_BINARY_DIR})

# In the package alone: a changelog, and manual pages packed as Debian has them.
string(TIMESTAMP today "%a, %d %b %Y %H:%M:%S +0000" UTC)
file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/package/changelog @ONLY CONTENT
"gallipot (@PROJECT_VERSION@) unstable; urgency=low

  * As the source has it.

 -- @CPACK_PACKAGE_CONTACT@  @today@
")
file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/package/pack.cmake @ONLY CONTENT [=[
set(share ${CPACK_TEMPORARY_INSTALL_DIRECTORY}/usr/share)
file(COPY @CMAKE_BINARY_DIR@/package/changelog DESTINATION ${share}/doc/gallipot)
file(GLOB manuals ${share}/man/man*/*.[0-9])
foreach(file ${share}/doc/gallipot/changelog ${manuals})
  execute_process(COMMAND gzip -9nf ${file} COMMAND_ERROR_IS_FATAL ANY)
endforeach()
]=])
set(CPACK_PRE_BUILD_SCRIPTS ${CMAKE_BINARY_DIR}/package/pack.cmake)
include(CPack)
