package dev.pawl.grammar.logic.drawn.intake;

import dev.pawl.grammar.logic.Allowance;
import dev.pawl.grammar.logic.LanguageChoices;
import dev.pawl.grammar.logic.drawn.xml.XmlNode;
import dev.pawl.grammar.logic.parse.Fragment;
import dev.pawl.grammar.logic.parse.SourceParser;
import dev.pawl.grammar.logic.tree.Declaration;
import dev.pawl.grammar.logic.tree.Expression;
import dev.pawl.grammar.logic.tree.Initializer;
import dev.pawl.grammar.logic.tree.Name;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.NearName;
import dev.pawl.grammar.source.Position;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What the readers of all formats share: names, pieces of text, and the telling of what is wrong. */
record Reading(LanguageChoices choices, Consumer<Diagnostic> diagnostics) {

  /** What may stand in every element, and says nothing of what a program does. */
  private static final Set<String> BESIDE = Set.of("addData", "documentation", "addDataInfo", "Comment", "AddData",
      "Documentation", "UsingDirective");

  private static final Pattern NAME = Pattern.compile("[A-Za-z_][A-Za-z0-9_]{0,127}");

  /** Where elements belong that are found elsewhere. */
  private static final Map<String, String> HOMES = Map.of("connection", "the <connectionPointIn> of what it leads to",
      "globalVars", "a <configuration> or <resource>", "configuration", "<instances><configurations>",
      "Configuration", "<Instances>");

  /** How the standard writes functions in a block (from memory). */
  private static final Map<String, String> SYMBOLS = Map.ofEntries(Map.entry("+", "ADD"), Map.entry("-", "SUB"),
      Map.entry("*", "MUL"), Map.entry("/", "DIV"), Map.entry("**", "EXPT"), Map.entry(":=", "MOVE"),
      Map.entry("&", "AND"), Map.entry(">=1", "OR"), Map.entry("=2k+1", "XOR"), Map.entry(">", "GT"),
      Map.entry(">=", "GE"), Map.entry("=", "EQ"), Map.entry("<=", "LE"), Map.entry("<", "LT"),
      Map.entry("<>", "NE"));

  private static final Set<String> FLAGS = Set.of("", "true", "1", "false", "0");

  /** Digits of the longest whole number that is read. */
  private static final int DIGITS = 18;

  /** A time as other standards write it: {@code PT1M0.5S}. */
  private static final Pattern DURATION = Pattern.compile("PT(?:([0-9]+)H)?(?:([0-9]+)M)?(?:([0-9.]+)S)?");

  /** A time as the first of the formats has it: {@code 00:00:00.4}. */
  private static final Pattern CLOCK = Pattern.compile("([0-9]+):([0-9]{2}):([0-9]{2}(?:[.][0-9]+)?)");

  void error(Position position, String message, String hint) {
    diagnostics.accept(Diagnostic.error(position, message, hint));
  }

  /** Tells of children that have no place in an element. */
  void only(XmlNode node, String... names) {
    for (XmlNode child : node.children()) {
      if (!Arrays.asList(names).contains(child.name()) && !BESIDE.contains(child.name())) {
        misplaced(child, node, NearName.hint(child.name(), List.of(names)).orElse("what can stand there: "
            + Stream.of(names).map(it -> "<" + it + ">").collect(Collectors.joining(", "))));
      }
    }
  }

  /** Tells of a wire that is drawn right in an element, where nothing takes it. */
  void noWires(XmlNode node) {
    node.child("connection").filter(unused -> !node.name().equals("condition")).ifPresent(it -> misplaced(it, node,
        ""));
  }

  private void misplaced(XmlNode child, XmlNode node, String hint) {
    String home = HOMES.get(child.name());
    error(child.position(), "<" + child.name() + "> has no place in <" + node.name() + ">", home == null ? hint
        : "it belongs into " + home);
  }

  /** The same reading, which tells of nothing but what could be allowed. */
  Reading ofAllowances() {
    return new Reading(choices, found -> {
      if (Allowance.allows(found)) {
        diagnostics.accept(found);
      }
    });
  }

  /**
   * Reads what is the outermost element and no project.
   *
   * @param kinds elements that are a unit, which is read where that is allowed
   * @param unit reads it
   */
  Project outermost(XmlNode root, String project, Set<String> kinds,
      BiFunction<Reading, XmlNode, Optional<Project.Drawing>> unit) {
    if (!kinds.contains(root.name())) {
      error(root.position(), "a project begins with <" + project + ">, not with <" + root.name() + ">",
          "export the whole project");
      return new Project(List.of(), List.of());
    }
    Diagnostic found = Allowance.LONE_UNITS.found(choices, root.position(), "<" + root.name() + "> stands by itself,"
        + " without the <" + project + "> that it belongs to", "export the whole project");
    diagnostics.accept(found);
    Optional<Project.Drawing> read = unit.apply(found.isError() ? ofAllowances() : this, root);
    return new Project(List.of(), found.isError() ? List.of() : read.stream().toList());
  }

  /**
   * A unit as some tools write its declaration as text into additional data, and nothing of it where the format has it.
   *
   * @param holders where additional data of the unit stand
   */
  Optional<Declaration.Unit> declared(Declaration.Kind kind, Name name, List<XmlNode> holders) {
    Pattern head = Pattern.compile("(?i)\\b" + kind + "\\s+" + Pattern.quote(name.text()) + "\\b");
    Optional<XmlNode> text = holders.stream().flatMap(it -> it.children().stream()).filter(it -> it.name()
        .equalsIgnoreCase("addData")).flatMap(Reading::all).filter(it -> head.matcher(it.text()).find()).findFirst();
    if (text.isEmpty()) {
      return Optional.empty();
    }
    Diagnostic found = Allowance.ADDITIONAL_DATA.found(choices, text.get().textPosition(), "the variables of " + name
        + " are declared as text in additional data of one tool, and not where the format has them",
        "export them as its interface");
    diagnostics.accept(found);
    return SourceParser.unit(new Fragment(text.get().text(), text.get().textPosition()), kind, choices,
        found.isError() ? ofAllowances().diagnostics() : diagnostics);
  }

  /** An element and all within it. */
  static Stream<XmlNode> all(XmlNode node) {
    return Stream.concat(Stream.of(node), node.children().stream().flatMap(Reading::all));
  }

  /** The drawing of a body in additional data of a tool, where the body is empty as far as the format has it. */
  static Optional<XmlNode> drawnElsewhere(XmlNode body) {
    boolean empty = body.children().stream().filter(it -> !BESIDE.contains(it.name())).allMatch(it ->
        it.name().equals("ST") ? text(it).text().isBlank() : it.children().isEmpty());
    return Optional.of(body).filter(unused -> empty).stream().flatMap(it -> it.below("addData", "data").stream())
        .flatMap(it -> it.children().stream()).filter(it -> all(it).anyMatch(each -> each.attribute("localId")
        .isPresent())).findFirst();
  }

  /** The function that a symbol in a block stands for; names stay. */
  static String function(String type) {
    return SYMBOLS.getOrDefault(type, type);
  }

  /** Tells of a unit without a body; one whose body is refused has been told of already. */
  void lacksBody(XmlNode unit, Name name) {
    error(unit.position(), name + " has no body that can be read",
        "export it as Structured Text, ladder, function blocks or a chart");
  }

  /** The name in an attribute, which has to be there. */
  Name name(XmlNode node, String attribute) {
    String text = node.word(attribute);
    if (text.isEmpty()) {
      error(node.position(), "<" + node.name() + "> lacks its " + attribute, "give it one");
    } else if (!NAME.matcher(text).matches()) {
      error(node.position(), "'" + text + "' is no name",
          "a name begins with a letter or '_' and has letters, digits and '_' only");
    }
    return new Name(text, node.position());
  }

  /** The text in an attribute as a piece that can be parsed. */
  static Fragment attribute(XmlNode node, String attribute) {
    return new Fragment(node.attribute(attribute).orElse(""), node.position());
  }

  /** The text in an element, or in elements within it; lines stand where they stood. */
  static Fragment text(XmlNode node) {
    List<XmlNode> texts = new ArrayList<>();
    collect(node, texts);
    if (texts.isEmpty()) {
      return new Fragment("", node.position());
    }
    Position start = texts.get(0).textPosition();
    if (texts.size() == 1) {
      return new Fragment(TextLines.joined(texts.get(0).text()), start);
    }
    StringBuilder text = new StringBuilder();
    int line = start.line();
    for (XmlNode piece : texts) {
      while (line < piece.textPosition().line()) {
        text.append('\n');
        line++;
      }
      text.append(piece.text());
      line += (int) piece.text().chars().filter(c -> c == '\n').count();
      text.append(piece == texts.get(texts.size() - 1) ? "" : XmlNode.BREAK);
    }
    return new Fragment(TextLines.joined(text.toString()), start);
  }

  private static void collect(XmlNode node, List<XmlNode> texts) {
    if (!node.text().isBlank()) {
      texts.add(node);
    }
    for (XmlNode child : node.children()) {
      if (!BESIDE.contains(child.name())) {
        collect(child, texts);
      }
    }
  }

  /** An expression; 0 after a message. */
  Expression expression(Fragment fragment, String what) {
    if (fragment.text().isBlank()) {
      error(fragment.start(), what + " is empty", "");
      return new Expression.IntegerLiteral(Optional.empty(), BigInteger.ZERO, fragment.start());
    }
    return SourceParser.expression(fragment, choices, diagnostics).orElseGet(() ->
        new Expression.IntegerLiteral(Optional.empty(), BigInteger.ZERO, fragment.start()));
  }

  /** A task with what its attributes say, as far as they can be read. */
  Declaration.Task task(XmlNode node, Name name) {
    return new Declaration.Task(name, ofTask(node, "single", "name a global variable of type BOOL"),
        ofTask(node, "interval", "write a duration such as T#20ms"),
        ofTask(node, "priority", "write a whole number; 0 is the most urgent"));
  }

  private Optional<Expression> ofTask(XmlNode task, String attribute, String hint) {
    Fragment written = inTime(attribute(task, attribute));
    List<Diagnostic> problems = new ArrayList<>();
    Optional<Expression> expression = written.text().isBlank() ? Optional.empty()
        : SourceParser.expression(written, choices, problems::add);
    if (!problems.isEmpty()) {
      error(task.position(), "the " + attribute + " of the task " + task.word("name") + " is '"
          + written.text().strip() + "', which cannot be read", hint);
    }
    return expression;
  }

  private static Fragment inTime(Fragment written) {
    Matcher time = DURATION.matcher(CLOCK.matcher(written.text()).replaceAll("PT$1H$2M$3S"));
    if (!time.matches()) {
      return written;
    }
    String[] units = {"h", "m", "s"};
    StringBuilder text = new StringBuilder("T#");
    for (int i = 0; i < units.length; i++) {
      text.append(time.group(i + 1) == null ? "" : time.group(i + 1) + units[i]);
    }
    return new Fragment(text.toString(), written.start());
  }

  /** Whether an attribute says true; false where there is none, and after a message. */
  boolean flag(XmlNode node, String attribute) {
    String text = node.word(attribute);
    if (!FLAGS.contains(text)) {
      error(node.position(), "'" + text + "' is no value of " + attribute,
          "one of true, false, 1, 0, in these letters");
    }
    return text.equals("true") || text.equals("1");
  }

  /** A number in an attribute; the given one where there is none, and after a message. */
  double number(XmlNode node, String attribute, double otherwise) {
    String text = node.word(attribute);
    try {
      return text.isEmpty() ? otherwise : Double.parseDouble(text);
    } catch (NumberFormatException e) {
      error(node.position(), "the " + attribute + " of <" + node.name() + "> is no number: '" + text + "'", "");
      return otherwise;
    }
  }

  /** A whole number from 0 on in an attribute; empty where there is none, and after a message. */
  Optional<Long> whole(XmlNode node, String attribute) {
    String text = node.word(attribute);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    if (!isWhole(text)) {
      error(node.position(), "the " + attribute + " of <" + node.name() + "> is no whole number: '" + text + "'", "");
      return Optional.empty();
    }
    return Optional.of(Long.parseLong(text));
  }

  private static boolean isWhole(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (text.charAt(i) < '0' || text.charAt(i) > '9') {
        return false;
      }
    }
    return text.length() <= DIGITS;
  }

  /** An element of a first value, as often as its attribute says. */
  Initializer.Repeated repeated(XmlNode node, Initializer value) {
    long count = whole(node, "repetitionValue").or(() -> whole(node, "repetition")).orElse(1L);
    if (count > 99_999_999) {
      error(node.position(), "'" + count + "' is too large a repetition", "");
    }
    return new Initializer.Repeated((int) Math.min(count, 99_999_999), Optional.of(value));
  }

  /** The constant of an enumeration that an attribute names; the first where there is none, and after a message. */
  <E extends Enum<E>> E word(XmlNode node, String attribute, Class<E> type) {
    String text = node.word(attribute);
    for (E constant : type.getEnumConstants()) {
      if (constant.name().equalsIgnoreCase(text)) {
        return constant;
      }
    }
    if (!text.isEmpty()) {
      error(node.position(), "'" + text + "' is no " + attribute, "one of "
          + String.join(", ", Arrays.stream(type.getEnumConstants()).map(it -> it.name().toLowerCase(
              Locale.ROOT)).toList()));
    }
    return type.getEnumConstants()[0];
  }
}
