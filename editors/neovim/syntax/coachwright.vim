" KDL, version 2, as builds, parts and rule packs use it. The words of the vocabulary come from the language server.
if exists('b:current_syntax')
  finish
endif

syntax match coachwrightNode /\%(^\|[{;]\)\@<=\s*\zs[^[:space:]"#;{}()=\/\\+.0-9-][^[:space:]"#;{}()=\/\\]*/
syntax match coachwrightProperty /[^[:space:]"#;{}()=\/\\]\+\ze=/
syntax match coachwrightNumber /\%(\s\|=\)\@<=[+-]\?\d[0-9_]*\%(\.\d\+\)\?\ze\%([[:space:];{}]\|$\)/
syntax match coachwrightKeyword /#\%(true\|false\|null\|inf\|-inf\|nan\)\>/
syntax match coachwrightEscape /\\\%(["\\nrtbfs]\|u{\x\{1,6}}\)/ contained
syntax region coachwrightString start=/"/ skip=/\\./ end=/"/ oneline contains=coachwrightEscape
syntax region coachwrightString start=/"""/ end=/"""/ contains=coachwrightEscape
syntax region coachwrightString start=/\z(#\+\)"/ end=/"\z1/ oneline
syntax region coachwrightString start=/\z(#\+\)"""/ end=/"""\z1/
syntax match coachwrightComment +//.*$+
syntax region coachwrightComment start=+/\*+ end=+\*/+ contains=coachwrightComment
syntax match coachwrightComment +/-\s*[^[:space:]{]*+

highlight default link coachwrightNode Keyword
highlight default link coachwrightProperty Identifier
highlight default link coachwrightNumber Number
highlight default link coachwrightKeyword Constant
highlight default link coachwrightEscape SpecialChar
highlight default link coachwrightString String
highlight default link coachwrightComment Comment

let b:current_syntax = 'coachwright'
