package dev.pawl.editor;

import dev.pawl.grammar.rules.check.Builtins;
import dev.pawl.grammar.rules.explain.Explanation;
import dev.pawl.grammar.rules.explain.RuleExplainer;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.parse.RuleWords;
import dev.pawl.grammar.rules.tree.Declaration;
import dev.pawl.grammar.rules.tree.RuleFile;
import dev.pawl.grammar.rules.units.UnitTable;
import dev.pawl.grammar.source.Position;
import dev.pawl.grammar.source.Source;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.eclipse.lsp4j.CompletionItem;
import org.eclipse.lsp4j.CompletionItemKind;

/** What is answered of one spot of one file. */
final class Answers {

  private static final Pattern WORD = Pattern.compile("[A-Za-z0-9_]+");
  private static final Pattern IDENTIFIER = Pattern.compile("[A-Za-z0-9_{}]+(-[A-Za-z0-9_{}]+)+");
  /** A number with what may be the beginning of its unit. */
  private static final Pattern UNIT_TO_COME =
      Pattern.compile("(^|.*[^A-Za-z0-9_.])\\d+(\\.\\d+)?\\s*[A-Za-z/%]*[0-9]?");
  /** What takes a zone, up to the spot. */
  private static final Pattern ZONE_TO_COME =
      Pattern.compile(".*\\b(occupied|trains|enters|leaves|backs_out|miscounts)\\(\\s*\\w*");

  private final Understanding understood;
  private final RuleFile file;
  private final org.eclipse.lsp4j.Position spot;
  private final String line;

  Answers(Understanding understood, Source source, org.eclipse.lsp4j.Position spot) {
    this.understood = understood;
    this.file = understood.file(source.name()).orElseThrow();
    this.spot = spot;
    this.line = source.line(spot.getLine() + 1);
  }

  /** Units behind a number, zones where one is asked for, else all names and the words of the language. */
  List<CompletionItem> completions() {
    String before = line.substring(0, Math.min(spot.getCharacter(), line.length()));
    if (UNIT_TO_COME.matcher(before).matches()) {
      return UnitTable.symbols().stream().sorted().distinct().map(unit -> item(unit, CompletionItemKind.Unit, ""))
          .toList();
    }
    boolean zonesOnly = ZONE_TO_COME.matcher(before).matches();
    Stream<CompletionItem> names = understood.names().stream()
        .filter(named -> !zonesOnly || named.kind() == Named.Kind.ZONE)
        .filter(named -> WORD.matcher(named.name()).matches() || named.kind() == Named.Kind.RULE)
        .map(named -> item(named.name(), kind(named.kind()), named.text()));
    Stream<CompletionItem> words = zonesOnly ? Stream.of()
        : Stream.concat(RuleWords.ALL.stream().map(word -> item(word, CompletionItemKind.Keyword, "")),
            Builtins.NAMES.stream().sorted().map(form -> item(form, CompletionItemKind.Function, "")));
    return Stream.concat(names, words).toList();
  }

  private static CompletionItem item(String label, CompletionItemKind kind, String detail) {
    CompletionItem item = new CompletionItem(label);
    item.setKind(kind);
    if (!detail.isEmpty()) {
      item.setDetail(detail);
    }
    return item;
  }

  private static CompletionItemKind kind(Named.Kind kind) {
    return switch (kind) {
      case SIGNAL -> CompletionItemKind.Variable;
      case ZONE -> CompletionItemKind.Field;
      case CONSTANT -> CompletionItemKind.Constant;
      case DEFINITION -> CompletionItemKind.Function;
      case TYPE -> CompletionItemKind.Enum;
      case MEMBER -> CompletionItemKind.EnumMember;
      case GROUP -> CompletionItemKind.Module;
      case RULE -> CompletionItemKind.Class;
      case REQUIREMENT -> CompletionItemKind.Interface;
    };
  }

  /** Where the name is declared that stands here, or the file that is used here. */
  List<Position> definitions() {
    Optional<Position> used = used();
    return used.isPresent() ? used.stream().toList() : named().map(Named::position).toList();
  }

  private Optional<Position> used() {
    return file.declarations().stream().filter(Declaration.Use.class::isInstance).map(Declaration.Use.class::cast)
        .filter(use -> Spots.holds(use.file().position(), file.source().name(), spot))
        .flatMap(use -> understood.compilation().sources().stream().map(Source::name)
            .filter(name -> isAt(name, use.file().text())))
        .map(name -> new Position(name, 1, 1, 1)).findFirst();
  }

  /** Whether a file has the name that another names relative to itself. */
  private boolean isAt(String name, String relative) {
    Path used = Path.of(file.source().name()).toAbsolutePath().resolveSibling(relative.replace('\\', '/'));
    return Path.of(name).toAbsolutePath().normalize().equals(used.normalize());
  }

  private Stream<Named> named() {
    List<String> candidates = Stream.of(IDENTIFIER, WORD).flatMap(form -> at(form).stream()).toList();
    return candidates.stream().flatMap(word -> understood.names().stream().filter(named -> named.name().equals(word)))
        .limit(1);
  }

  /** The text of this form around the spot. */
  private Optional<String> at(Pattern form) {
    Matcher matcher = form.matcher(line);
    while (matcher.find()) {
      if (matcher.start() <= spot.getCharacter() && spot.getCharacter() <= matcher.end()) {
        return Optional.of(matcher.group());
      }
    }
    return Optional.empty();
  }

  /** What a name stands for; elsewhere in a rule, what the rule says in plain words. */
  Optional<String> hover() {
    Optional<Named> named = named().findFirst();
    if (named.isPresent() && named.get().kind() != Named.Kind.RULE) {
      return Optional.of("```\n" + named.get().text() + "\n```\n" + named.get().position());
    }
    Optional<Position> rule = named.map(Named::position).or(this::ruleHere);
    return rule.flatMap(place -> understood.book().map(book -> words(book, place))).filter(text -> !text.isEmpty());
  }

  /** The place of the identifier of the rule in which the spot lies. */
  private Optional<Position> ruleHere() {
    Optional<Declaration> last = Optional.empty();
    for (Declaration declaration : file.declarations()) {
      if (declaration.position().line() <= spot.getLine() + 1) {
        last = Optional.of(declaration);
      }
    }
    return last.filter(Declaration.Rule.class::isInstance).map(rule -> ((Declaration.Rule) rule).id().position());
  }

  /** All rules that a declaration makes, in plain words; the book may be from before the last change. */
  private String words(RuleBook book, Position declared) {
    Optional<String> id = understood.names().stream().filter(named -> named.position().equals(declared))
        .map(Named::name).findFirst();
    RuleExplainer explainer = new RuleExplainer(book);
    List<String> parts = new ArrayList<>();
    for (Rule rule : book.rules()) {
      if (rule.position().equals(declared) || id.filter(rule.id()::equals).isPresent()) {
        Explanation explanation = explainer.explain(rule);
        parts.add("**" + explanation.id() + "** " + explanation.title() + "\n\n" + String.join("\n\n", explanation
            .words()) + "\n\n`" + explanation.formula() + "`");
      }
    }
    return String.join("\n\n---\n\n", parts);
  }
}
