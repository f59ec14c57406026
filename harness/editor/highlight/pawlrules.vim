" Colours of rule files in Vim and Neovim. Put this file into ~/.vim/syntax/pawlrules.vim, and into ~/.vimrc:
"   autocmd BufRead,BufNewFile *.rules setfiletype pawlrules
if exists("b:current_syntax")
  finish
endif
syntax keyword pawlDeclaration constant define example group input internal language needs output requirement resolution ride rule type use zone
syntax keyword pawlClause after always at basis before by end enter given gives hazard holds leave length level margin must never practice satisfied satisfies severity so source starts stay then throughout tolerance tried trigger unless until untried when while with within
syntax keyword pawlOperator and count for implies in last max mean min not or over since time
syntax keyword pawlType bool number of one signal signals zones
syntax keyword pawlConstant false start true
syntax match pawlClause "\<for each\>"
syntax match pawlFunction "\<\(rises\|falls\|changes\|previous\|rate\|speed\|occupied\|trains\|enters\|leaves\|backs_out\|miscounts\)\ze("
syntax match pawlNumber "\<\d\+\(\.\d\+\)\?\([eE][+-]\?\d\+\)\?\>"
syntax match pawlName "\<\(rule\|requirement\)\s\+\zs[A-Za-z0-9_{}]\+\(-[A-Za-z0-9_{}]\+\)*"
syntax region pawlText start=+"+ end=+"+ oneline
syntax match pawlComment "--.*$"

highlight default link pawlDeclaration Statement
highlight default link pawlClause Keyword
highlight default link pawlOperator Operator
highlight default link pawlType Type
highlight default link pawlConstant Boolean
highlight default link pawlFunction Function
highlight default link pawlNumber Number
highlight default link pawlName Identifier
highlight default link pawlText String
highlight default link pawlComment Comment

setlocal commentstring=--\ %s
let b:current_syntax = "pawlrules"
