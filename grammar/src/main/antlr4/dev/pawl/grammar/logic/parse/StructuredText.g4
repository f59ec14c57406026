// The Structured Text language of IEC 61131-3, edition 3: the part that control programs use. Alternatives whose label starts with
// "unsupported" are recognised only so that the construct can be refused by name.
parser grammar StructuredText;

options { tokenVocab = StructuredTextLexer; }

@members {
  /** Whether the type that holds an enumeration follows its members, and not the next declaration. */
  private boolean integerFollows() {
    int after = _input.LA(2);
    return (after == SEMICOLON || after == ASSIGN || after == END_TYPE)
        && dev.pawl.grammar.logic.model.Elementary.named(_input.LT(1).getText()).isPresent();
  }

  /** Whether the length of a string in round brackets follows. */
  private boolean lengthFollows() {
    return _input.LA(2) == LEFT_PAREN && java.util.List.of("STRING", "WSTRING")
        .contains(_input.LT(1).getText().toUpperCase(java.util.Locale.ROOT));
  }
}

compilationUnit : declaration* EOF ;

// Pieces that stand by themselves where logic was drawn.
expressionAlone : expression EOF ;

statementsAlone : statementList EOF ;

declaration
  : TYPE typeDeclaration+ END_TYPE SEMICOLON?                                              # typeBlock
  | variableBlock                                                                          # globals
  | PROGRAM name variableBlock* statementList endProgram                                  # program
  | FUNCTION name (COLON typeSpecification)? variableBlock* statementList endFunction     # function
  | FUNCTION_BLOCK name extension* (variableBlock | method)* statementList endFunctionBlock     # functionBlock
  | CLASS (~END_CLASS)* END_CLASS                                                          # unsupportedClass
  | INTERFACE (~END_INTERFACE)* END_INTERFACE                                              # unsupportedInterface
  | NAMESPACE (~END_NAMESPACE)* END_NAMESPACE                                              # unsupportedNamespace
  | USING (~SEMICOLON)* SEMICOLON                                                          # unsupportedUsing
  | CONFIGURATION name variableBlock* (resource+ | resourceBody) variableBlock* END_CONFIGURATION SEMICOLON?  # configuration
  ;

endProgram : END_PROGRAM SEMICOLON? | EOF ;

endFunction : END_FUNCTION SEMICOLON? | EOF ;

endFunctionBlock : END_FUNCTION_BLOCK SEMICOLON? | EOF ;

// What is missing is told when the tree is built.
closing : SEMICOLON? ;

// ---- configurations

resource : RESOURCE name ON name variableBlock* resourceBody END_RESOURCE SEMICOLON? ;

resourceBody : task* programInstance* ;

task : TASK name LEFT_PAREN taskProperty (COMMA taskProperty)* RIGHT_PAREN SEMICOLON ;

taskProperty : name ASSIGN expression ;

programInstance
  : PROGRAM (RETAIN | NON_RETAIN)? name (WITH name)? COLON name (LEFT_PAREN (connection (COMMA connection)*)? RIGHT_PAREN)?
    SEMICOLON
  ;

connection
  : argument                                                                               # programConnection
  | name WITH name                                                                         # unsupportedBlockTask
  ;

extension : (EXTENDS | IMPLEMENTS) name (COMMA name)* ;

method : METHOD (~END_METHOD)* END_METHOD ;

// ---- types

typeDeclaration : name COLON typeSpecification (ASSIGN initializer)? closing ;

typeSpecification
  : ARRAY LEFT_BRACKET range (COMMA range)* RIGHT_BRACKET OF typeSpecification             # arrayType
  | ARRAY LEFT_BRACKET TIMES (COMMA TIMES)* RIGHT_BRACKET OF typeSpecification             # openArrayType
  | STRUCT OVERLAP? structureField+ END_STRUCT                                             # structureType
  | {lengthFollows()}? name LEFT_PAREN expression RIGHT_PAREN                              # roundStringType
  | name LEFT_PAREN expression RANGE expression RIGHT_PAREN                                # subrangeType
  | name? LEFT_PAREN enumerationMember (COMMA enumerationMember)* RIGHT_PAREN ({integerFollows()}? name)?  # enumerationType
  | name LEFT_BRACKET expression RIGHT_BRACKET                                             # sizedStringType
  | REF_TO typeSpecification                                                               # unsupportedReferenceType
  | name (DOT name)*                                                                       # namedType
  ;

range : expression RANGE expression ;

structureField : name (COMMA name)* (AT DIRECT_VARIABLE)? COLON typeSpecification (ASSIGN initializer)? SEMICOLON ;

enumerationMember : name (ASSIGN expression)? ;

initializer
  : LEFT_BRACKET elementInitializer (COMMA elementInitializer)* RIGHT_BRACKET              # arrayInitializer
  | LEFT_PAREN fieldInitializer (COMMA fieldInitializer)* RIGHT_PAREN                      # structureInitializer
  | expression                                                                             # valueInitializer
  ;

elementInitializer
  : INTEGER LEFT_PAREN initializer? RIGHT_PAREN                                            # repeatedElement
  | initializer                                                                            # singleElement
  ;

fieldInitializer : name ASSIGN initializer ;

// ---- variables

variableBlock
  : section (CONSTANT | RETAIN | NON_RETAIN)* variableDeclaration* END_VAR SEMICOLON?      # variables
  | (VAR_CONFIG | VAR_ACCESS) (~END_VAR)* END_VAR SEMICOLON?                               # unsupportedSection
  ;

section : VAR | VAR_INPUT | VAR_OUTPUT | VAR_IN_OUT | VAR_TEMP | VAR_GLOBAL | VAR_EXTERNAL ;

variableDeclaration
  : name (COMMA name)* (AT DIRECT_VARIABLE)? COLON typeSpecification (R_EDGE | F_EDGE)? (ASSIGN initializer)? SEMICOLON
  ;

// ---- statements

statementList : statement* ;

statement
  : path (operation=(ASSIGN | ASSIGN_ATTEMPT | EQUAL) expression)? SEMICOLON                       # simpleStatement
  | DIRECT_VARIABLE ASSIGN expression SEMICOLON                                            # directAssignment
  | IF expression THEN statementList elsif* (ELSE statementList)? END_IF closing         # ifStatement
  | CASE expression OF caseElement+ (ELSE statementList)? END_CASE closing               # caseStatement
  | FOR path ASSIGN expression TO expression (BY expression)? DO statementList END_FOR closing  # forStatement
  | WHILE expression DO statementList END_WHILE closing                                  # whileStatement
  | REPEAT statementList UNTIL expression END_REPEAT closing                             # repeatStatement
  | EXIT SEMICOLON                                                                         # exitStatement
  | CONTINUE SEMICOLON                                                                     # continueStatement
  | RETURN SEMICOLON                                                                       # returnStatement
  | SEMICOLON                                                                              # emptyStatement
  | (INITIAL_STEP | name) name COLON stepControl* END_STEP SEMICOLON?                      # step
  | TRANSITION transitionHead name stepNames TO stepNames ASSIGN expression SEMICOLON END_TRANSITION SEMICOLON?  # transition
  | ACTION name COLON? statementList END_ACTION SEMICOLON?                                 # action
  | (THIS | SUPER) (~SEMICOLON)* SEMICOLON                                                 # unsupportedObject
  ;

stepControl : name LEFT_PAREN (name (COMMA (literal | name))*)? RIGHT_PAREN SEMICOLON ;

transitionHead : name? (LEFT_PAREN name ASSIGN INTEGER RIGHT_PAREN)? ;

stepNames : name | LEFT_PAREN name (COMMA name)* RIGHT_PAREN ;

elsif : ELSIF expression THEN statementList ;

caseElement : caseLabel (COMMA caseLabel)* COLON statementList ;

caseLabel : caseConstant (RANGE caseConstant)? ;

caseConstant : (PLUS | MINUS)? (literal | name (DOT name)? | LEFT_PAREN expression RIGHT_PAREN) ;

// ---- expressions, tightest first

expression
  : literal                                                                                # literalExpression
  | path                                                                                   # pathExpression
  | DIRECT_VARIABLE                                                                        # directExpression
  | operator=(AND | OR | XOR | MOD) LEFT_PAREN argument (COMMA argument)* RIGHT_PAREN      # operatorCall
  | LEFT_PAREN expression RIGHT_PAREN                                                      # groupedExpression
  | (REF LEFT_PAREN expression RIGHT_PAREN | NULL_REFERENCE | THIS | SUPER)                # unsupportedReference
  | operator=(MINUS | PLUS | NOT) expression                                               # unaryExpression
  | expression operator=POWER expression                                                   # binaryExpression
  | expression operator=(TIMES | DIVIDE | MOD) expression                                  # binaryExpression
  | expression operator=(PLUS | MINUS) expression                                          # binaryExpression
  | expression operator=(LESS | GREATER | AT_MOST | AT_LEAST) expression                   # binaryExpression
  | expression operator=(EQUAL | NOT_EQUAL) expression                                     # binaryExpression
  | expression operator=(AND | AMPERSAND | AND_THEN) expression                                       # binaryExpression
  | expression operator=XOR expression                                                     # binaryExpression
  | expression operator=(OR | OR_ELSE) expression                                                      # binaryExpression
  | expression ASSIGN expression                                                           # unsupportedAssignment
  ;

path : name suffix* ;

suffix
  : DOT name                                                                               # memberSuffix
  | DOT (INTEGER | DIRECT_VARIABLE)                                                        # partSuffix
  | LEFT_BRACKET expression (COMMA expression)* RIGHT_BRACKET                              # indexSuffix
  | LEFT_PAREN (argument (COMMA argument)*)? RIGHT_PAREN                                   # callSuffix
  | DEREFERENCE                                                                            # unsupportedDereference
  ;

argument
  : name ASSIGN expression?                                                                # inputArgument
  | NOT? name OUTPUT_TO (path | DIRECT_VARIABLE)?                                          # outputArgument
  | expression                                                                             # positionalArgument
  ;

literal
  : INTEGER
  | BASED_INTEGER
  | REAL
  | TRUE
  | FALSE
  | TYPED_NUMBER
  | TYPED_NAME
  | TYPED_STRING
  | STRING_LITERAL
  | WIDE_STRING_LITERAL
  | DURATION
  | DATE_LITERAL
  | TIME_OF_DAY_LITERAL
  | DATE_AND_TIME_LITERAL
  ;

// Words of configurations only, which programs take as names.
name : IDENTIFIER | RESOURCE | TASK | ON | WITH ;
