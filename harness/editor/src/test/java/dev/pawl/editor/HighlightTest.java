package dev.pawl.editor;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import dev.pawl.grammar.rules.parse.RuleWords;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The files by which editors colour rule files know each word of the language, and none that is none. */
class HighlightTest {

  private static final Path FOLDER = Path.of("highlight");
  private static final Set<String> WORDS = new TreeSet<>(RuleWords.ALL);

  private static List<String> patterns() throws IOException {
    JsonObject grammar = JsonParser.parseString(Files.readString(FOLDER.resolve("pawl-rules.tmLanguage.json")))
        .getAsJsonObject();
    List<String> patterns = new ArrayList<>();
    for (JsonElement pattern : grammar.getAsJsonArray("patterns")) {
      patterns.add(pattern.getAsJsonObject().get("match").getAsString());
    }
    return patterns;
  }

  @Test
  void theOneForMostEditorsKnowsEachWord() throws IOException {
    Set<String> known = new TreeSet<>();
    Pattern list = Pattern.compile("\\\\b\\(?([a-z| ]+)\\)?\\\\b");
    for (String pattern : patterns()) {
      Matcher words = list.matcher(pattern);
      if (words.matches()) {
        known.addAll(Arrays.asList(words.group(1).split("\\|")));
      }
    }
    assertThat(known).isEqualTo(WORDS);
  }

  /** The first pattern that finds something at a place wins, so that no word inside a text or a comment is coloured. */
  @Test
  void itsPatternsFindWhatTheyAreFor() throws IOException {
    assertThat(first("-- never")).isEqualTo("-- never");
    assertThat(first("\"never\"")).isEqualTo("\"never\"");
    assertThat(first("rule LIFT-{z} \"x\"")).isEqualTo("rule LIFT-{z}");
    assertThat(first("1.5 m/s2 within")).isEqualTo("1.5 m/s2");
    assertThat(first("500 ms, and")).isEqualTo("500 ms");
    assertThat(first("3 stay")).isEqualTo("3");
    assertThat(first("for each zone z")).isEqualTo("for each");
    assertThat(first("rises(flag)")).isEqualTo("rises");
    assertThat(first("lift_run")).isEmpty();
    assertThat(first("nevermore")).isEmpty();
  }

  private static String first(String text) throws IOException {
    for (String pattern : patterns()) {
      Matcher found = Pattern.compile(pattern).matcher(text);
      if (found.lookingAt()) {
        return found.group();
      }
    }
    return "";
  }

  @Test
  void theOneForVimKnowsEachWord() throws IOException {
    Set<String> known = new TreeSet<>(Set.of("for each"));
    for (String line : Files.readAllLines(FOLDER.resolve("pawlrules.vim"))) {
      if (line.startsWith("syntax keyword ")) {
        known.addAll(Arrays.asList(line.split(" ")).subList(3, line.split(" ").length));
      }
    }
    assertThat(known).isEqualTo(WORDS);
    assertThat(FOLDER.resolve("pawlrules.vim")).content().contains("\"\\<for each\\>\"");
  }
}
