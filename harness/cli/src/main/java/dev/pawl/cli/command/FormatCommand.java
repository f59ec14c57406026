package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.Durable;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.Syntax;
import dev.pawl.grammar.rules.format.Formatted;
import dev.pawl.grammar.rules.format.RuleFormatter;
import dev.pawl.grammar.source.DiagnosticRenderer;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.files.Folders;
import dev.pawl.run.files.RuleFiles;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.List;
import picocli.CommandLine.ParseResult;

/** {@code pawl format}: rule files in canonical layout. */
public final class FormatCommand implements Command {

  private static final Option<Boolean> WRITE = Option.flag("Change the files themselves.", "-w", "--write");
  private static final Option<Boolean> CHECK = Option.flag("Only name the files that have another layout.", "--check");

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(WRITE, CHECK), Operands.some("PATH", "Rule files, or folders of them (*.rules)."),
        "Puts rule files into the canonical layout; comments stay. Without an option the text goes to standard output."
            + " A file with an error stays as it is.",
        "Exit status: 1 if --check finds another layout, 2 if a file has errors, else 0.");
  }

  @Override
  public int run(ParseResult words, Console console) {
    boolean write = WRITE.of(words);
    boolean check = CHECK.of(words);
    if (write && check) {
      throw new CommandException("--write and --check exclude each other; give one");
    }
    int status = ExitStatus.NOTHING_BROKEN;
    for (Path file : Folders.files(Operands.of(words), "rule files (*" + RuleFiles.ENDING + ")",
        name -> name.endsWith(RuleFiles.ENDING))) {
      Source source = RuleFiles.read(file);
      Formatted formatted = RuleFormatter.format(source);
      console.err().print(new DiagnosticRenderer(List.of(source)).render(formatted.diagnostics()));
      if (formatted.text().isEmpty()) {
        status = ExitStatus.WRONG_INPUT;
      } else if (write) {
        status = Math.max(status, write(file, source.text(), formatted.text().get(), console));
      } else if (!check) {
        console.out().print(formatted.text().get());
      } else if (!formatted.text().get().equals(source.text())) {
        console.out().println(file);
        status = Math.max(status, ExitStatus.RULE_BROKEN);
      }
    }
    return status;
  }

  private static int write(Path file, String before, String after, Console console) {
    if (after.equals(before)) {
      return ExitStatus.NOTHING_BROKEN;
    }
    if (Files.isSymbolicLink(file)) {
      console.err().println("pawl: " + file + ": is a link and stays as it is; name the file itself");
      return ExitStatus.WRONG_INPUT;
    }
    Path beside = file.resolveSibling(file.getFileName() + ".unfinished");
    try {
      replace(file, beside, after);
      console.out().println("laid out anew: " + file);
      return ExitStatus.NOTHING_BROKEN;
    } catch (FileAlreadyExistsException e) {
      throw new CommandException(FileTrouble.message(beside.toString(), e));
    } catch (IOException e) {
      throw new CommandException(FileTrouble.message(file.toString(), e));
    }
  }

  /** The file is the old or the new one at any time, with the owner and the permissions that it had. */
  private static void replace(Path file, Path beside, String text) throws IOException {
    Files.copy(file, beside, StandardCopyOption.COPY_ATTRIBUTES, LinkOption.NOFOLLOW_LINKS);
    try {
      Files.write(beside, text.getBytes(StandardCharsets.UTF_8), StandardOpenOption.WRITE,
          StandardOpenOption.TRUNCATE_EXISTING);
      Durable.file(beside);
      Files.move(beside, file, StandardCopyOption.ATOMIC_MOVE);
      Durable.nameOf(file);
    } finally {
      Files.deleteIfExists(beside);
    }
  }
}
