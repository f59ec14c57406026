// Words of the Structured Text language of IEC 61131-3, edition 3. Written from the standard's tables 1 to 9 (character set,
// identifiers, comments, literals) and 71 to 72 (operators, statements). Malformed numbers and dates are let through here and refused,
// with a message of their own, when the syntax tree is built.
lexer grammar StructuredTextLexer;

options { caseInsensitive = true; }

PROGRAM : 'PROGRAM' ;
END_PROGRAM : 'END_PROGRAM' ;
FUNCTION : 'FUNCTION' ;
END_FUNCTION : 'END_FUNCTION' ;
FUNCTION_BLOCK : 'FUNCTION_BLOCK' ;
END_FUNCTION_BLOCK : 'END_FUNCTION_BLOCK' ;
TYPE : 'TYPE' ;
END_TYPE : 'END_TYPE' ;
STRUCT : 'STRUCT' ;
END_STRUCT : 'END_STRUCT' ;
ARRAY : 'ARRAY' ;
OF : 'OF' ;

VAR : 'VAR' ;
VAR_INPUT : 'VAR_INPUT' ;
VAR_OUTPUT : 'VAR_OUTPUT' ;
VAR_IN_OUT : 'VAR_IN_OUT' ;
VAR_TEMP : 'VAR_TEMP' ;
VAR_GLOBAL : 'VAR_GLOBAL' ;
VAR_EXTERNAL : 'VAR_EXTERNAL' ;
END_VAR : 'END_VAR' ;
RETAIN : 'RETAIN' ;
NON_RETAIN : 'NON_RETAIN' ;
CONSTANT : 'CONSTANT' ;
AT : 'AT' ;
R_EDGE : 'R_EDGE' ;
F_EDGE : 'F_EDGE' ;

IF : 'IF' ;
THEN : 'THEN' ;
ELSIF : 'ELSIF' ;
ELSE : 'ELSE' ;
END_IF : 'END_IF' ;
CASE : 'CASE' ;
END_CASE : 'END_CASE' ;
FOR : 'FOR' ;
TO : 'TO' ;
BY : 'BY' ;
DO : 'DO' ;
END_FOR : 'END_FOR' ;
WHILE : 'WHILE' ;
END_WHILE : 'END_WHILE' ;
REPEAT : 'REPEAT' ;
UNTIL : 'UNTIL' ;
END_REPEAT : 'END_REPEAT' ;
EXIT : 'EXIT' ;
CONTINUE : 'CONTINUE' ;
RETURN : 'RETURN' ;

AND : 'AND' ;
OR : 'OR' ;
AND_THEN : 'AND_THEN' ;
OR_ELSE : 'OR_ELSE' ;
XOR : 'XOR' ;
NOT : 'NOT' ;
MOD : 'MOD' ;
TRUE : 'TRUE' ;
FALSE : 'FALSE' ;

CONFIGURATION : 'CONFIGURATION' ;
END_CONFIGURATION : 'END_CONFIGURATION' ;
RESOURCE : 'RESOURCE' ;
END_RESOURCE : 'END_RESOURCE' ;
ON : 'ON' ;
TASK : 'TASK' ;
WITH : 'WITH' ;

// Reserved words of constructs that are recognised only so that they can be refused by name.
CLASS : 'CLASS' ;
END_CLASS : 'END_CLASS' ;
INTERFACE : 'INTERFACE' ;
END_INTERFACE : 'END_INTERFACE' ;
METHOD : 'METHOD' ;
END_METHOD : 'END_METHOD' ;
NAMESPACE : 'NAMESPACE' ;
END_NAMESPACE : 'END_NAMESPACE' ;
USING : 'USING' ;
EXTENDS : 'EXTENDS' ;
IMPLEMENTS : 'IMPLEMENTS' ;
VAR_CONFIG : 'VAR_CONFIG' ;
VAR_ACCESS : 'VAR_ACCESS' ;
INITIAL_STEP : 'INITIAL_STEP' ;
END_STEP : 'END_STEP' ;
TRANSITION : 'TRANSITION' ;
END_TRANSITION : 'END_TRANSITION' ;
ACTION : 'ACTION' ;
END_ACTION : 'END_ACTION' ;
REF_TO : 'REF_TO' ;
REF : 'REF' ;
NULL_REFERENCE : 'NULL' ;
THIS : 'THIS' ;
SUPER : 'SUPER' ;
OVERLAP : 'OVERLAP' ;

ASSIGN : ':=' ;
ASSIGN_ATTEMPT : '?=' ;
OUTPUT_TO : '=>' ;
POWER : '**' ;
NOT_EQUAL : '<>' ;
AT_MOST : '<=' ;
AT_LEAST : '>=' ;
LESS : '<' ;
GREATER : '>' ;
EQUAL : '=' ;
PLUS : '+' ;
MINUS : '-' ;
TIMES : '*' ;
DIVIDE : '/' ;
AMPERSAND : '&' ;
RANGE : '..' ;
DOT : '.' ;
COMMA : ',' ;
COLON : ':' ;
SEMICOLON : ';' ;
LEFT_PAREN : '(' ;
RIGHT_PAREN : ')' ;
LEFT_BRACKET : '[' ;
RIGHT_BRACKET : ']' ;
DEREFERENCE : '^' ;

DURATION : ('T' | 'TIME' | 'LT' | 'LTIME') '#' [+-]? [0-9] [0-9_.A-Z]* ;
DATE_LITERAL : ('D' | 'DATE' | 'LD' | 'LDATE') '#' [0-9] [0-9_-]* ;
TIME_OF_DAY_LITERAL : ('TOD' | 'TIME_OF_DAY' | 'LTOD' | 'LTIME_OF_DAY') '#' [0-9] [0-9_:.]* ;
DATE_AND_TIME_LITERAL : ('DT' | 'DATE_AND_TIME' | 'LDT' | 'LDATE_AND_TIME') '#' [0-9] [0-9_:.-]* ;

REAL : [0-9] [0-9_]* '.' [0-9] [0-9_]* EXPONENT? ;
BASED_INTEGER : [0-9] [0-9_]* '#' [0-9A-Z_]+ ;
INTEGER : [0-9] [0-9_]* ;
TYPED_NUMBER : WORD '#' [+-]? ([0-9] [0-9_]* '#' [0-9A-Z_]+ | [0-9] [0-9_]* ('.' [0-9] [0-9_]*)? EXPONENT?) ;
TYPED_NAME : WORD '#' WORD ;
TYPED_STRING : WORD '#' (STRING_LITERAL | WIDE_STRING_LITERAL) ;
STRING_LITERAL : '\'' ('$' ~[\r\n] | ~['$\r\n])* '\'' ;
WIDE_STRING_LITERAL : '"' ('$' ~[\r\n] | ~["$\r\n])* '"' ;
DIRECT_VARIABLE : '%' [A-Z]+ ('*' | [0-9]+ ('.' [0-9]+)*)? ;

IDENTIFIER : WORD ;

// Letters beyond A to Z are told of, or let through, before the words are parsed.
fragment WORD : ([A-Z_] | LETTER) ([A-Z0-9_] | LETTER)* ;
fragment LETTER options { caseInsensitive = false; } : [\p{L}] ;
fragment BRACES : '{' (BRACES | ~[{}])* '}' ;
fragment EXPONENT : 'E' [+-]? [0-9]+ ;

SPACE : [ \t\r\n\f\u00A0\uFEFF]+ -> skip ;
LINE_COMMENT : '//' ~[\r\n]* -> skip ;
PRAGMA : BRACES -> channel(HIDDEN) ;
COMMENT_START : '(*' -> channel(HIDDEN), pushMode(PAREN_COMMENT) ;
SLASH_COMMENT_START : '/*' -> channel(HIDDEN), pushMode(SLASH_COMMENT) ;
STRAY : . ;

mode PAREN_COMMENT;
NESTED_START : '(*' -> skip, pushMode(PAREN_COMMENT) ;
COMMENT_END : '*)' -> skip, popMode ;
COMMENT_TEXT : ~[*(]+ -> skip ;
COMMENT_MARK : [*(] -> skip ;

mode SLASH_COMMENT;
NESTED_SLASH_START : '/*' -> skip, pushMode(SLASH_COMMENT) ;
SLASH_COMMENT_END : '*/' -> skip, popMode ;
SLASH_COMMENT_TEXT : ~[*/]+ -> skip ;
SLASH_COMMENT_MARK : [*/] -> skip ;
