package dev.pawl.run.ride;

import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.format.RuleFormatter;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.RunException;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.files.Folders;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * The files that a ride begins with.
 *
 * @param files their texts by name
 * @param rules how many rules judge from the beginning
 * @param blanks names that have to be said what they are before the library's rules are adopted
 * @param offered files of the library that are not adopted
 */
public record NewRide(Map<String, String> files, int rules, List<String> blanks, List<String> offered) {

  private static final String ADOPTED = "adopted";

  /**
   * Reads the description of a layout and writes, in memory, what follows from it.
   *
   * @param folder where the files are to lie
   * @param library folder of the rule library
   * @throws RunException with everything that is wrong with the layout
   */
  public static NewRide of(Path layout, Path folder, Path library) {
    Source source = RuleFiles.read(layout);
    LayoutReader.Read read = LayoutReader.read(source);
    List<Diagnostic> diagnostics = new ArrayList<>(read.diagnostics());
    Map<String, Source> offered = library(library);
    Adoption adoption = new Adoption(read.layout(), offered, diagnostics);
    require(source, diagnostics);
    Map<String, String> files = new LinkedHashMap<>();
    String name = name(read.layout().ride());
    files.put(name + RuleFiles.ENDING, formatted(RideRules.of(read.layout())));
    files.put(name + ".bindings", bindings(read.layout()));
    if (!read.layout().adopted().isEmpty()) {
      String text = adoption.text(folder);
      require(source, diagnostics);
      boolean whole = adoption.blanks().isEmpty();
      files.put(ADOPTED + (whole ? RuleFiles.ENDING : ".to-fill"), whole ? formatted(text) : text);
    }
    int rules = compile(files, folder);
    List<String> others = new ArrayList<>(offered.keySet());
    read.layout().adopted().forEach(token -> others.remove(token.text()));
    return new NewRide(files, rules, List.copyOf(adoption.blanks()), others);
  }

  private static Map<String, Source> library(Path folder) {
    Map<String, Source> files = new LinkedHashMap<>();
    if (Files.isDirectory(folder)) {
      Folders.inside(folder, name -> name.endsWith(RuleFiles.ENDING))
          .forEach(file -> files.put(folder.relativize(file).toString(), RuleFiles.read(file)));
    }
    return files;
  }

  private static void require(Source source, List<Diagnostic> diagnostics) {
    long errors = diagnostics.size();
    if (errors > 0) {
      diagnostics.sort(Comparator.comparingInt((Diagnostic each) -> each.position().line())
          .thenComparingInt(each -> each.position().column()));
      throw new RunException(new DiagnosticRenderer(List.of(source)).render(diagnostics),
          "the layout has " + errors + (errors == 1 ? " error" : " errors") + ", nothing was written");
    }
  }

  private static String name(String ride) {
    String name = ride.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-").replaceAll("^-|-$", "");
    return name.isEmpty() ? "ride" : name;
  }

  private static String formatted(String text) {
    return RuleFormatter.format(new Source("", text)).text().orElse(text);
  }

  /** What is written has to be understood: else a word of the layout means something to the rule language. */
  private static int compile(Map<String, String> files, Path folder) {
    List<Source> sources = files.entrySet().stream().filter(file -> file.getKey().endsWith(RuleFiles.ENDING))
        .map(file -> new Source(folder.resolve(file.getKey()).toString(), file.getValue())).toList();
    SourceLoader used = name -> RuleFiles.read(Path.of(name));
    Compilation compilation = RuleLanguage.compile(sources, used);
    if (compilation.book().isEmpty()) {
      throw new RunException(compilation.rendered(), "the rules that follow from the layout would have errors, nothing"
          + " was written; a name or an entry of 'means' has to be another");
    }
    return compilation.book().get().rules().size();
  }

  private static String bindings(Layout layout) {
    List<String> lines = new ArrayList<>(List.of(
        "-- Which tag of the log is which signal. For each, write the tag, and take the two dashes away;",
        "-- 'pawl propose' looks at a log and proposes them.", "signals"));
    int width = layout.signals().keySet().stream().mapToInt(String::length).max().orElse(1);
    layout.signals().forEach((name, declared) -> lines.add("  -- " + name + " ".repeat(width - name.length())
        + " from \"\""));
    return lines.stream().collect(Collectors.joining("\n", "", "\n"));
  }

  /**
   * Writes the files into a folder that is not there yet, or is empty.
   *
   * @throws RunException if anything is there already
   */
  public void writeTo(Path folder) {
    try {
      if (Files.exists(folder) && (!Files.isDirectory(folder) || !Folders.inside(folder, name -> true).isEmpty())) {
        throw new RunException(folder + ": is there already, and nothing is written over it; name another folder");
      }
      Files.createDirectories(folder);
      for (Map.Entry<String, String> file : files.entrySet()) {
        Files.write(folder.resolve(file.getKey()), file.getValue().getBytes(StandardCharsets.UTF_8),
            StandardOpenOption.CREATE_NEW);
      }
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(folder.toString(), e));
    }
  }
}
