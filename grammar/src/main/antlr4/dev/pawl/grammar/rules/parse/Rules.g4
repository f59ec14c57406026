/** The rule language. Pure: what the forms mean is said in LANGUAGE.md, what they become in the packages tree and check. */
grammar Rules;

file
  : declaration* EOF
  ;

declaration
  : 'language' NUMBER                                             # languageDeclaration
  | 'ride' STRING                                                 # rideDeclaration
  | 'resolution' quantity                                         # resolutionDeclaration
  | 'use' STRING                                                  # useDeclaration
  | 'constant' name '=' expression                                # constantDeclaration
  | 'define' name parameters? '=' expression                      # defineDeclaration
  | 'type' name '=' choice                                        # typeDeclaration
  | direction names ':' valueType                                 # signalDeclaration
  | 'needs' need                                                  # needsDeclaration
  | 'group' name '=' bindings                                     # groupDeclaration
  | 'zone' name zoneClause*                                       # zoneDeclaration
  | forEach? 'rule' ruleName STRING ruleClause* duty proof*       # ruleDeclaration
  | 'requirement' ruleName STRING requirementClause*              # requirementDeclaration
  | 'example' STRING 'for' ruleName 'gives' outcome exampleStep*  # exampleDeclaration
  ;

/** A file ends after this one: used to say what could have followed a declaration. */
lastDeclaration
  : declaration EOF
  ;

need
  : 'zone' names
  | 'group' names
  | names ':' valueType
  ;

direction
  : 'input'
  | 'output'
  | 'internal'
  ;

names
  : name (',' name)*
  ;

valueType
  : 'bool'      # boolType
  | 'number'    # numberType
  | choice      # choiceType
  | unit        # namedType
  ;

choice
  : 'one' 'of' '(' names ')'
  ;

parameters
  : '(' parameter (',' parameter)* ')'
  ;

parameter
  : name ':' ('zone' | valueType)
  ;

zoneClause
  : 'enter' boundary        # enterClause
  | 'leave' boundary        # leaveClause
  | 'length' quantity       # lengthClause
  | 'holds' NUMBER          # holdsClause
  | 'starts' 'with' NUMBER  # startsClause
  ;

boundary
  : expression ('then' expression)?
  ;

forEach
  : FOR_EACH binder ('in' (name | bindings))?
  ;

binder
  : kind (name | '(' names ')')              # uniformBinder
  | '(' kind name (',' kind name)* ')'       # mixedBinder
  ;

kind
  : 'zone'
  | 'zones'
  | 'signal'
  | 'signals'
  ;

bindings
  : '(' binding (',' binding)* ')'
  ;

binding
  : name
  | '(' names ')'
  ;

ruleName
  : ruleWord+ ('-' (ruleWord+ | reserved))*
  ;

ruleWord
  : name
  | NUMBER
  | '{' name '}'
  ;

requirementClause
  : word=('source' | 'hazard' | 'level') STRING  # wordedClause
  | 'satisfied' 'by' ruleNames                   # satisfiedClause
  ;

ruleNames
  : ruleName (',' ruleName)*
  ;

ruleClause
  : 'basis' basis                 # basisClause
  | 'severity' name               # severityClause
  | 'tolerance' quantity          # toleranceClause
  | 'resolution' quantity         # resolutionClause
  | 'satisfies' ruleNames         # satisfiesClause
  ;

basis
  : 'practice' STRING?
  | STRING
  ;

duty
  : 'when' expression scope* 'must' demand          # whenDuty
  | form=('always' | 'never') expression scope*     # everywhereDuty
  ;

/** What shows that a rule could have been broken, or why nothing can. */
proof
  : 'stay'? 'tried' 'by' challenge  # triedProof
  | 'untried' STRING                # untriedProof
  ;

challenge
  : 'trigger'
  | expression ('given' expression)?
  ;

scope
  : form=('while' | 'unless') expression
  ;

demand
  : expression timing? stay?
  ;

timing
  : 'within' quantity                                      # withinTiming
  | 'after' quantity (form=('within' | 'throughout') quantity)?  # afterTiming
  | 'throughout' quantity                                  # throughoutTiming
  | 'before' expression                                    # beforeTiming
  ;

stay
  : ',' 'and' 'stay' 'so' ('for' quantity | 'until' expression)
  ;

outcome
  : 'not'? name (',' 'margin' '-'? number)?
  ;

exampleStep
  : 'at' number assignment (',' assignment)*  # atStep
  | 'end' 'at' number                         # endStep
  ;

assignment
  : name '=' value
  ;

value
  : '-'? number  # numberValue
  | 'true'       # trueValue
  | 'false'      # falseValue
  | name         # nameValue
  ;

expression
  : primary                                                                      # primaryExpression
  | '-' expression                                                               # negative
  | expression operator=('*' | '/') expression                                   # product
  | expression operator=('+' | '-') expression                                   # sum
  | expression operator=('=' | '!=' | '<' | '<=' | '>' | '>=') expression        # comparison
  | 'not' expression                                                             # negation
  | expression 'for' quantity                                                    # heldFor
  | expression 'in' 'last' quantity                                              # inLast
  | expression operator='since' expression                                       # since
  | expression operator='and' expression                                         # conjunction
  | expression operator='or' expression                                          # disjunction
  | <assoc = right> expression operator='implies' expression                     # implication
  ;

primary
  : number                                                                 # numberPrimary
  | form=('true' | 'false')                                                # truthPrimary
  | form=('start' | 'end')                                                 # tracePrimary
  | 'count' '(' expression ')' countWindow                                 # countPrimary
  | form=('min' | 'max' | 'mean') '(' expression ')' 'over' quantity       # windowPrimary
  | 'time' 'since' primary                                                 # timeSince
  | name '(' (expression (',' expression)*)? ')'                           # call
  | name                                                                   # reference
  | UNIT                                                                   # gluedNames
  | '(' expression ')'                                                     # group
  ;

countWindow
  : 'in' 'last' quantity
  | 'since' primary
  ;

quantity
  : number              # numberQuantity
  | name                # nameQuantity
  | '(' expression ')'  # groupQuantity
  ;

number
  : NUMBER unit?
  ;

unit
  : NAME
  | UNIT
  | '%'
  | 'in'
  | 'min'
  ;

/** Words of the language that may be names as well, because their place always tells which is meant. */
name
  : NAME
  | 'enter' | 'leave' | 'length' | 'holds' | 'starts' | 'with' | 'then' | 'practice' | 'so' | 'last' | 'one' | 'of' | 'gives'
  | 'margin' | 'signal' | 'signals' | 'zones' | 'by' | 'trigger' | 'given' | 'source' | 'hazard' | 'level'
  | 'language'
  ;

/** Words that cannot be names; they may stand inside a rule's identifier. */
reserved
  : 'ride' | 'resolution' | 'use' | 'constant' | 'define' | 'type' | 'input' | 'output' | 'internal' | 'needs' | 'zone' | 'group' | 'rule'
  | 'requirement' | 'satisfies' | 'satisfied' | 'example' | 'basis' | 'severity' | 'tolerance' | 'when' | 'must' | 'always' | 'never' | 'while' | 'unless' | 'within' | 'after'
  | 'throughout' | 'before' | 'and' | 'or' | 'not' | 'implies' | 'for' | 'in' | 'since' | 'over' | 'until' | 'stay' | 'tried' | 'untried' | 'at'
  | 'true' | 'false' | 'start' | 'end' | 'count' | 'min' | 'max' | 'mean' | 'time' | 'bool' | 'number'
  ;

FOR_EACH : 'for' [ \t]+ 'each' ;
NAME : LETTER (LETTER | DIGIT)* ;
UNIT : SYMBOL ('/' SYMBOL)+ ;
NUMBER : DIGIT+ ('.' DIGIT+)? ([eE] [+-]? DIGIT+)? ;
STRING : '"' ~["\r\n]* '"' ;

COMMENT : '--' ~[\r\n]* -> channel(HIDDEN) ;
BLANK : [ \t\r\n\uFEFF]+ -> skip ;

/** What the lexer cannot read is a token of its own, so that the message is ours. */
UNCLOSED_STRING : '"' ~["\r\n]* ;
FOREIGN_SIGN : '==' | '<>' | '&&' | '||' | '//' | '/*' | ':=' | '=>' | '->' | '**' | '++' ;
UNREADABLE : . ;

fragment LETTER : [A-Za-z_] ;
fragment DIGIT : [0-9] ;
fragment SYMBOL : [A-Za-z]+ [0-9]? ;
