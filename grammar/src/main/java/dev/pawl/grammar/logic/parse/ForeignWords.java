package dev.pawl.grammar.logic.parse;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.source.Diagnostic;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/** Words that programs have and the standard has not: what names can be made of, and what must be refused. */
final class ForeignWords {

  /** Units of another language. */
  private static final Set<String> UNITS = Set.of("ORGANIZATION_BLOCK", "DATA_BLOCK");

  private static final Set<String> JUMPS = Set.of("JMP", "GOTO");

  /** What stands in the place of a drawn body where only the text was exported. */
  private static final Pattern DRAWN_BODY = Pattern.compile("(?i)_[A-Z]+_BODY");

  /** What begins, divides or ends lines that count under a condition only. */
  private static final Pattern CONDITION = Pattern.compile("(?i)^\\{\\s*#?\\s*(IF|IFDEF|IFNDEF|ELSE|ELSIF|ELSEIF|ELIF|"
      + "END_?IF)\\b");

  private static final Set<String> HEADERS = Set.of("TITLE", "VERSION", "AUTHOR", "FAMILY", "NAME",
      "KNOW_HOW_PROTECT");

  private static final Set<String> DURATIONS = Set.of("T", "TIME", "LT", "LTIME");

  private static final Set<Integer> BLOCKS = Set.of(StructuredTextLexer.FUNCTION_BLOCK, StructuredTextLexer.FUNCTION,
      StructuredTextLexer.PROGRAM, StructuredTextLexer.TYPE);

  /** What stands behind a word that is a name. */
  private static final Set<Integer> AFTER_NAMES = Set.of(StructuredTextLexer.ASSIGN, StructuredTextLexer.DOT,
      StructuredTextLexer.LEFT_PAREN, StructuredTextLexer.LEFT_BRACKET, StructuredTextLexer.COLON,
      StructuredTextLexer.COMMA, StructuredTextLexer.SEMICOLON, StructuredTextLexer.EQUAL);

  private final String file;
  private final LanguageChoices choices;
  private final Consumer<Diagnostic> diagnostics;

  ForeignWords(String file, LanguageChoices choices, Consumer<Diagnostic> diagnostics) {
    this.file = file;
    this.choices = choices;
    this.diagnostics = diagnostics;
  }

  /** Looks through the words of a source, and makes names of those that are meant so; false if none can be read. */
  boolean read(List<Token> tokens) {
    Optional<Token> unit = tokens.stream().filter(token -> token.getType() == StructuredTextLexer.IDENTIFIER
        && (UNITS.contains(token.getText().toUpperCase(Locale.ROOT)) || union(tokens, token) || jump(tokens, token)))
        .findFirst();
    if (unit.isPresent()) {
      diagnostics.accept(Diagnostic.error(Places.of(file, unit.get()), unit.get().getText().toUpperCase(Locale.ROOT)
          + " is not supported", ForeignConstructs.hint(unit.get()).orElseThrow()));
      return false;
    }
    Optional<Token> drawn = tokens.stream().filter(token -> token.getType() == StructuredTextLexer.IDENTIFIER
        && DRAWN_BODY.matcher(token.getText()).matches()).findFirst();
    if (drawn.isPresent()) {
      diagnostics.accept(Diagnostic.error(Places.of(file, drawn.get()), drawn.get().getText()
          + " stands for a body that is drawn, and is not in this text",
          "export the project in the exchange format (*.xml)"));
      return false;
    }
    if (conditions(tokens) || !new ForeignBodies(file, choices, diagnostics).passedOver(tokens)) {
      return false;
    }
    headers(tokens);
    letters(tokens);
    durations(tokens);
    Set<String> names = tokens.stream().filter(token -> quotedName(tokens, token))
        .map(token -> token.getText().toUpperCase(Locale.ROOT)).collect(Collectors.toSet());
    for (Token token : tokens) {
      boolean hash = hash(tokens, token);
      if (hash && directive(tokens, token)) {
        diagnostics.accept(Diagnostic.error(Places.of(file, token), "a line that begins with # is a directive, which"
            + " the standard does not know", "leave it out; files that belong together are all given with --logic"));
        passOver((CommonToken) token);
        continue;
      }
      boolean quoted = token.getType() == StructuredTextLexer.WIDE_STRING_LITERAL
          && names.contains(token.getText().toUpperCase(Locale.ROOT));
      if (hash || quoted) {
        diagnostics.accept(Allowance.QUOTED_NAMES.found(choices, Places.of(file, token),
            "a name is written in quotes or behind # here", "write names without them"));
        CommonToken changed = (CommonToken) token;
        if (hash) {
          passOver(changed);
        } else {
          String name = token.getText().substring(1, token.getText().length() - 1);
          changed.setType(StructuredTextLexer.IDENTIFIER);
          changed.setText(name.replaceAll("\\W", "_"));
        }
      }
    }
    return true;
  }

  private static boolean union(List<Token> tokens, Token token) {
    return token.getText().equalsIgnoreCase("UNION")
        && visible(tokens, token, -1).getType() == StructuredTextLexer.COLON
        && visible(tokens, token, 1).getType() == StructuredTextLexer.IDENTIFIER;
  }

  private static boolean jump(List<Token> tokens, Token token) {
    Token label = visible(tokens, token, 1);
    return JUMPS.contains(token.getText().toUpperCase(Locale.ROOT))
        && label.getType() == StructuredTextLexer.IDENTIFIER
        && visible(tokens, label, 1).getType() == StructuredTextLexer.SEMICOLON;
  }

  /** Lines in braces that choose which others count; to pass over them would be to take them all. */
  private boolean conditions(List<Token> tokens) {
    List<Token> found = tokens.stream().filter(token -> token.getType() == StructuredTextLexer.PRAGMA
        && token.getText().indexOf(';') < 0 && CONDITION.matcher(token.getText()).find()).toList();
    found.forEach(token -> diagnostics.accept(Diagnostic.error(Places.of(file, token),
        "a choice in braces of what is compiled is not supported",
        "leave in the lines that count, and take out the others and the braces")));
    return !found.isEmpty();
  }

  /** Lines that say something of a unit to one tool, and lines that fold the text. */
  private void headers(List<Token> tokens) {
    boolean above = false;
    for (Token token : tokens) {
      String word = token.getText().toUpperCase(Locale.ROOT);
      boolean first = token.getChannel() == Token.DEFAULT_CHANNEL && (visible(tokens, token, -1) == token
          || visible(tokens, token, -1).getLine() < token.getLine());
      Token next = visible(tokens, token, 1);
      above |= first && BLOCKS.contains(token.getType());
      if (token.getType() == StructuredTextLexer.IDENTIFIER && first) {
        boolean header = above && HEADERS.contains(word) && !line(tokens, token).contains(";")
            && (word.equals("KNOW_HOW_PROTECT") || next.getType() == StructuredTextLexer.COLON
            || next.getType() == StructuredTextLexer.EQUAL);
        boolean begin = above && word.equals("BEGIN") && !AFTER_NAMES.contains(next.getType());
        boolean region = word.equals("END_REGION") || word.equals("REGION") && !AFTER_NAMES.contains(next.getType());
        if (header || begin) {
          diagnostics.accept(Allowance.BLOCK_HEADERS.found(choices, Places.of(file, token),
              "a block has no such header in the standard", "make a remark of it"));
        } else if (region) {
          diagnostics.accept(Allowance.REGIONS.found(choices, Places.of(file, token), "the standard knows no regions",
              "make remarks of their lines"));
        }
        if (header || begin || region) {
          tokens.stream().filter(other -> other.getLine() == token.getLine() && (other == token || !begin))
              .filter(other -> other.getType() != Token.EOF).map(CommonToken.class::cast)
              .forEach(ForeignWords::passOver);
        }
        above &= !begin;
      }
    }
  }

  /** Names with other letters than the standard's. */
  private void letters(List<Token> tokens) {
    for (Token token : tokens) {
      boolean word = token.getType() == StructuredTextLexer.IDENTIFIER
          || token.getType() == StructuredTextLexer.TYPED_NAME;
      if (word && token.getText().chars().anyMatch(letter -> letter > 127 && !paired(letter))) {
        diagnostics.accept(Diagnostic.error(Places.of(file, token),
            "a name has a letter whose upper case is that of another letter", "write it with A to Z, digits and _"));
      } else if (word && token.getText().chars().anyMatch(letter -> letter > 127)) {
        diagnostics.accept(Allowance.OTHER_LETTERS.found(choices, Places.of(file, token),
            "a name has other letters than A to Z", "write it with A to Z, digits and _"));
      }
    }
  }

  /** Whether no other letter has the same upper or lower case, as ı and i or ß and ss: names would become one. */
  private static boolean paired(int letter) {
    String own = Character.toString(letter);
    String upper = own.toUpperCase(Locale.ROOT);
    String lower = own.toLowerCase(Locale.ROOT);
    return lower.equals(own) ? upper.toLowerCase(Locale.ROOT).equals(own) : lower.toUpperCase(Locale.ROOT).equals(own);
  }

  /** Makes one word of a duration whose number does not follow its # at once. */
  private void durations(List<Token> tokens) {
    for (Token hash : tokens) {
      if (hash.getType() == StructuredTextLexer.STRAY && hash.getText().equals("#") && hash.getTokenIndex() > 0) {
        CommonToken type = (CommonToken) tokens.get(hash.getTokenIndex() - 1);
        CommonToken number = (CommonToken) visible(tokens, hash, 1);
        CommonToken unit = (CommonToken) visible(tokens, number, 1);
        boolean duration = DURATIONS.contains(type.getText().toUpperCase(Locale.ROOT))
            && type.getStopIndex() + 1 == hash.getStartIndex() && number.getType() == StructuredTextLexer.INTEGER
            && unit.getType() == StructuredTextLexer.IDENTIFIER && number.getStopIndex() + 1 == unit.getStartIndex();
        if (duration) {
          diagnostics.accept(Allowance.BLANKS_IN_DURATIONS.found(choices, Places.of(file, type),
              "a duration has a blank in it", "write it without, as in T#2s"));
          type.setType(StructuredTextLexer.DURATION);
          type.setText(type.getText() + "#" + number.getText() + unit.getText());
          List.of((CommonToken) hash, number, unit).forEach(ForeignWords::passOver);
        }
      }
    }
  }

  private static String line(List<Token> tokens, Token first) {
    return tokens.stream().filter(other -> other.getLine() == first.getLine()
        && other.getChannel() == Token.DEFAULT_CHANNEL).map(Token::getText).collect(Collectors.joining(" "));
  }

  private static void passOver(CommonToken token) {
    token.setChannel(Token.HIDDEN_CHANNEL);
    token.setType(StructuredTextLexer.PRAGMA);
  }

  /** A # first on its line whose word another name, or a literal, follows there; no statement begins so. */
  private static boolean directive(List<Token> tokens, Token hash) {
    Token before = visible(tokens, hash, -1);
    Token word = tokens.get(hash.getTokenIndex() + 1);
    Token after = visible(tokens, word, 1);
    boolean first = before == hash || before.getLine() < hash.getLine();
    return first && after.getLine() == hash.getLine() && switch (after.getType()) {
      case StructuredTextLexer.IDENTIFIER, StructuredTextLexer.STRING_LITERAL, StructuredTextLexer.WIDE_STRING_LITERAL
          -> true;
      case StructuredTextLexer.LESS -> word.getText().equalsIgnoreCase("include");
      default -> false;
    };
  }

  /** The next word that is no comment, or with -1 the one before; the word itself where there is none. */
  private static Token visible(List<Token> tokens, Token from, int step) {
    int index = from.getTokenIndex() + step;
    while (index >= 0 && index < tokens.size()) {
      if (tokens.get(index).getChannel() == Token.DEFAULT_CHANNEL) {
        return tokens.get(index);
      }
      index += step;
    }
    return from;
  }

  /** A # right before a name, and not within a literal such as INT#5. */
  private static boolean hash(List<Token> tokens, Token token) {
    if (token.getType() != StructuredTextLexer.STRAY || !token.getText().equals("#")) {
      return false;
    }
    int index = token.getTokenIndex();
    Token next = tokens.get(Math.min(index + 1, tokens.size() - 1));
    boolean joined = next.getStartIndex() == token.getStopIndex() + 1
        && (Character.isLetter(next.getText().charAt(0)) || next.getText().startsWith("_")
        || next.getText().startsWith("\""));
    boolean apart = index == 0 || tokens.get(index - 1).getStopIndex() + 1 < token.getStartIndex()
        || !Character.isLetterOrDigit(last(tokens.get(index - 1)));
    return joined && apart && next.getType() != Token.EOF;
  }

  private static char last(Token token) {
    return token.getText().charAt(token.getText().length() - 1);
  }

  /** A text in double quotes where only a name can stand: it is declared, assigned to, called or has parts. */
  private static boolean quotedName(List<Token> tokens, Token token) {
    if (token.getType() != StructuredTextLexer.WIDE_STRING_LITERAL || !nameLike(token)) {
      return false;
    }
    int after = token.getTokenIndex() + 1;
    while (after < tokens.size() && tokens.get(after).getChannel() != Token.DEFAULT_CHANNEL) {
      after++;
    }
    int type = after < tokens.size() ? tokens.get(after).getType() : Token.EOF;
    int before = token.getTokenIndex() - 1;
    while (before >= 0 && tokens.get(before).getChannel() != Token.DEFAULT_CHANNEL) {
      before--;
    }
    String previous = before < 0 ? "" : tokens.get(before).getText().toUpperCase(Locale.ROOT);
    return type == StructuredTextLexer.ASSIGN || type == StructuredTextLexer.DOT
        || type == StructuredTextLexer.LEFT_BRACKET || type == StructuredTextLexer.LEFT_PAREN
        || type == StructuredTextLexer.COLON || previous.equals("FUNCTION_BLOCK") || previous.equals("FUNCTION")
        || previous.equals("PROGRAM") || previous.equals("TYPE") || previous.equals(":");
  }

  private static boolean nameLike(Token token) {
    String text = token.getText();
    return text.length() > 2 && text.substring(1, text.length() - 1).matches("[\\p{L}_][\\p{L}\\d_ .-]*");
  }
}
