package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.VersionText;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.RuleOptions;
import dev.pawl.cli.option.Syntax;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.files.Folders;
import dev.pawl.run.files.RuleFiles;
import java.io.File;
import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import picocli.CommandLine.ParseResult;

/** {@code pawl support}: what somebody who is asked for help needs to know, in one file, without any trace. */
public final class SupportCommand implements Command {

  private static final Option<List<String>> RULES = RuleOptions.RULES.withHelp(
      "Rule files, or folders of them, that go with it; none usually. Can be given several times.");
  /** What of the environment has a part in how pawl runs; all the rest is nobody's business. */
  private static final List<String> ASKED = List.of("PAWL_JAVA_OPTIONS", "PAWL_DETAIL", "PAWL_TERMINAL", "PAWL_CALLED",
      "SOURCE_DATE_EPOCH", "LC_ALL", "LC_CTYPE", "LANG", "TERM", "NO_COLOR", "COLUMNS");
  private static final long MEGABYTE = 1024 * 1024;

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(RULES), Operands.any("FILE.zip", "The file to be made; it must not be there yet."),
        "Puts what somebody needs who is asked for help into one file: version, system, Java, settings and the jars"
            + " that run. No trace, no report and no other file goes into it, and rules only with --rules. What it"
            + " holds is listed; look at it before you send it.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> named = Operands.of(words);
    if (named.size() != 1) {
      throw new CommandException("name the one file to be made, such as support.zip ('pawl support --help' shows how)");
    }
    Map<String, String> parts = new LinkedHashMap<>();
    parts.put("about.txt", about(console));
    for (Path file : Folders.files(RULES.of(words), "rule files (*" + RuleFiles.ENDING + ")",
        name -> name.endsWith(RuleFiles.ENDING))) {
      Source source = RuleFiles.read(file);
      parts.put("rules/" + (parts.size() - 1) + "-" + file.getFileName(), source.text());
    }
    write(Path.of(named.get(0)), parts);
    console.out().println(named.get(0) + " holds, and nothing else:");
    parts.forEach((name, text) -> console.out().println("  " + name + ", " + text.lines().count() + " lines"));
    return ExitStatus.NOTHING_BROKEN;
  }

  private static void write(Path file, Map<String, String> parts) {
    try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(file, StandardOpenOption.CREATE_NEW))) {
      for (Map.Entry<String, String> part : parts.entrySet()) {
        out.putNextEntry(new ZipEntry(part.getKey()));
        out.write(part.getValue().getBytes(StandardCharsets.UTF_8));
      }
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(file.toString(), e));
    }
  }

  private static String about(Console console) {
    Runtime machine = Runtime.getRuntime();
    Map<String, String> settings = new TreeMap<>();
    ASKED.stream().filter(console.environment()::containsKey)
        .forEach(name -> settings.put(name, console.environment().get(name)));
    return VersionText.TEXT + "\n"
        + "system     " + property("os.name") + " " + property("os.version") + " " + property("os.arch") + "\n"
        + "java       " + property("java.version") + ", " + property("java.vm.name") + ", " + property("java.vendor")
        + "\n"
        + "machine    " + machine.availableProcessors() + " processors, at most " + machine.maxMemory() / MEGABYTE
        + " MB for Java\n"
        + "language   " + Locale.getDefault() + ", texts of the system in " + Charset.defaultCharset() + "\n\n"
        + settings.entrySet().stream().map(setting -> setting.getKey() + "=" + setting.getValue() + "\n")
            .collect(Collectors.joining()) + "\n" + jars();
  }

  private static String property(String name) {
    return System.getProperty(name, "unknown");
  }

  /** The names and sizes of what runs, without the folders, which say where somebody keeps things. */
  private static String jars() {
    return List.of(property("java.class.path").split(File.pathSeparator)).stream().map(File::new)
        .map(jar -> jar.getName() + " " + jar.length() + "\n").sorted().collect(Collectors.joining());
  }
}
