package dev.pawl.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The index of messages is complete, and the pages for readers lead where they say. Messages are looked for where they
 * are made: in the arguments of the few calls that make diagnostics and exceptions for users. What is not a text there
 * stands as an ellipsis.
 */
class MessagesTest {

  private static final Path CHECKOUT = Path.of("..", "..");
  private static final Path INDEX = CHECKOUT.resolve("harness/MESSAGES.md");
  private static final Pattern CALL = Pattern.compile("(?:\\.error\\(|\\.warning\\(|\\.cause\\(|\\.found\\("
      + "|new (?:Command|Run|ReportFormat|IO|Trace|Plant|Ride|Layout)[A-Za-z]*Exception\\(|(?<![A-Za-z])fatal\\("
      + "|(?<![A-Za-z.])problem\\(|(?<![A-Za-z.])wrong\\(|(?<![A-Za-z.])refusal\\(|(?<![A-Za-z.])error\\("
      + "|View\\.shut\\(|err\\(\\)\\.println\\()");
  /** Where a refusal is an answer, it is made so. */
  private static final Pattern ANSWER = Pattern.compile(CALL + "|(?<=return |[?:] )Optional\\.of\\(");
  private static final Pattern ANSWERING = Pattern.compile(".*/(mqtt|keep|time|survey)/.*");
  private static final String ELLIPSIS = "\u2026";

  private static List<Path> sources() throws IOException {
    List<Path> files = new ArrayList<>();
    for (String folder : List.of("grammar", "harness")) {
      try (Stream<Path> all = Files.walk(CHECKOUT.resolve(folder))) {
        all.filter(file -> file.toString().endsWith(".java") && file.toString().contains("/src/main/")
            && !file.toString().contains("/bench/")).forEach(files::add);
      }
    }
    return files;
  }

  private static Set<String> messages() throws IOException {
    Set<String> messages = new TreeSet<>();
    for (Path file : sources()) {
      String source = Pattern.compile("/\\*.*?\\*/", Pattern.DOTALL).matcher(Files.readString(file)).replaceAll("");
      Matcher call = (ANSWERING.matcher(file.toString()).matches() ? ANSWER : CALL).matcher(source);
      while (call.find()) {
        split(source.substring(call.end()), ',').stream().filter(argument -> argument.contains("\""))
            .map(MessagesTest::template).filter(text -> text.matches("(?s).*[a-z]{2}.*")).findFirst()
            .ifPresent(messages::add);
      }
    }
    return messages;
  }

  /** The parts of a Java text up to the parenthesis that ends it, cut at a sign that stands in none of its brackets. */
  private static List<String> split(String text, char sign) {
    List<String> parts = new ArrayList<>();
    int start = 0;
    int depth = 0;
    int i = 0;
    while (i < text.length() && depth >= 0) {
      char c = text.charAt(i);
      if (c == '"' || c == '\'') {
        i = behindQuote(text, i) - 1;
      } else if ("([{".indexOf(c) >= 0) {
        depth++;
      } else if (")]}".indexOf(c) >= 0) {
        depth--;
      } else if (c == sign && depth == 0) {
        parts.add(text.substring(start, i));
        start = i + 1;
      }
      i++;
    }
    parts.add(text.substring(start, depth < 0 ? i - 1 : i));
    return parts;
  }

  private static int behindQuote(String text, int opening) {
    int i = opening + 1;
    while (text.charAt(i) != text.charAt(opening)) {
      i += text.charAt(i) == '\\' ? 2 : 1;
    }
    return i + 1;
  }

  private static String template(String argument) {
    StringBuilder text = new StringBuilder();
    for (String part : split(argument, '+')) {
      String stripped = part.strip();
      boolean literal = stripped.startsWith("\"") && behindQuote(stripped, 0) == stripped.length();
      if (literal) {
        text.append(stripped, 1, stripped.length() - 1);
      } else if (!text.toString().endsWith(ELLIPSIS)) {
        text.append(ELLIPSIS);
      }
    }
    return text.toString().replaceAll("\\s+", " ").replace("\\\"", "\"").strip();
  }

  private record Entry(String message, String remedy) {}

  private static List<Entry> index() throws IOException {
    List<Entry> entries = new ArrayList<>();
    Pattern row = Pattern.compile("\\| `` (.*?) `` \\| (.*) \\|");
    for (String line : Files.readAllLines(INDEX)) {
      Matcher matcher = row.matcher(line);
      if (matcher.matches()) {
        entries.add(new Entry(matcher.group(1).replace("\\|", "|").strip(), matcher.group(2)));
      }
    }
    return entries;
  }

  @Test
  void everyMessageOfTheSourcesStandsInTheIndexAndNoOther() throws IOException {
    Set<String> indexed = new TreeSet<>(index().stream().map(Entry::message).toList());
    Set<String> made = messages();
    assertThat(made).hasSizeGreaterThan(500);
    List<String> missing = made.stream().filter(message -> !indexed.contains(message)).toList();
    List<String> gone = indexed.stream().filter(message -> !made.contains(message)).toList();
    assertThat(missing).as("messages that MESSAGES.md lacks").isEmpty();
    assertThat(gone).as("messages of MESSAGES.md that no source makes").isEmpty();
  }

  @Test
  void eachHasACauseAndARemedy() throws IOException {
    assertThat(index()).allMatch(entry -> entry.remedy().matches(".*[a-z]{2}.*"));
    String page = Files.readString(INDEX);
    for (String section : page.split("\n## ")) {
      if (section.contains("| message |")) {
        assertThat(section.substring(section.indexOf('\n'), section.indexOf("| message |")).strip()).isNotEmpty();
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"harness/MESSAGES.md", "harness/CHANGELOG.md", "grammar/GLOSSARY.md", "harness/dist/INSTALL.md",
      "harness/dist/BUILDS.md", "harness/editor/EDITING.md", "README.md", "DEVELOPERS.md"})
  void linksLeadSomewhere(String page) throws IOException {
    Path file = CHECKOUT.resolve(page);
    Matcher link = Pattern.compile("\\]\\(([^)\\s]+)\\)").matcher(Files.readString(file));
    while (link.find()) {
      String[] parts = link.group(1).split("#", 2);
      Path target = parts[0].isEmpty() ? file : file.resolveSibling(parts[0]);
      assertThat(target).as(page + ": " + link.group()).exists();
      if (parts.length == 2) {
        assertThat(anchors(target)).as(page + ": " + link.group()).contains(parts[1]);
      }
    }
  }

  private static List<String> anchors(Path page) throws IOException {
    return Files.readAllLines(page).stream().filter(line -> line.startsWith("#"))
        .map(line -> line.replaceFirst("#+ ", "").toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N} _-]", "")
            .replace(' ', '-')).toList();
  }
}
