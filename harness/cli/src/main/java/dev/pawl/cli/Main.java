package dev.pawl.cli;

import dev.pawl.cli.command.CommandLines;
import dev.pawl.cli.command.Commands;
import dev.pawl.grammar.source.Legible;
import dev.pawl.run.RunException;
import java.io.BufferedOutputStream;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;

/** The entry of the {@code pawl} command: takes its streams and environment, and returns an exit status. */
public final class Main {

  private final Console console;

  public Main(Console console) {
    this.console = console;
  }

  /** The only place that ends the process. */
  public static void main(String[] arguments) {
    StandardOutput output = new StandardOutput(new FileOutputStream(FileDescriptor.out));
    PrintStream out = new PrintStream(new BufferedOutputStream(output), false, StandardCharsets.UTF_8);
    PrintStream err = new PrintStream(new FileOutputStream(FileDescriptor.err), true, StandardCharsets.UTF_8);
    Map<String, String> environment = System.getenv();
    Interruption interruption = new Interruption();
    Console console = new Console(out, err, environment, Path.of(System.getProperty("pawl.home", "")), interruption);
    interruption.watch(Runtime.getRuntime()::halt);
    int status = new Main(console).run(arguments);
    out.flush();
    status = output.failure().isPresent() ? notAllSaid(output.failure().get(), err) : status;
    interruption.finished(status);
    System.exit(status);
  }

  private static int notAllSaid(String why, PrintStream err) {
    err.println("pawl: " + why + "; what was to be said there is incomplete");
    return ExitStatus.WRONG_INPUT;
  }

  /**
   * Runs one command.
   *
   * @param arguments the words after {@code pawl}
   * @return the exit status, see {@link ExitStatus}
   */
  public int run(String... arguments) {
    try {
      return dispatch(arguments);
    } catch (CommandException e) {
      console.err().println("pawl: " + e.getMessage());
      return ExitStatus.WRONG_INPUT;
    } catch (RunException e) {
      console.err().print(e.diagnostics());
      console.err().println("pawl: " + e.summary());
      return ExitStatus.WRONG_INPUT;
    } catch (InvalidPathException e) {
      console.err().println("pawl: " + Legible.of(e.getInput())
          + ": no file can have this name under the present locale;"
          + " if its letters are not ASCII, set LC_ALL=C.UTF-8");
      return ExitStatus.WRONG_INPUT;
    } catch (OutOfMemoryError e) {
      console.err().println("pawl: out of memory; give it more with PAWL_JAVA_OPTIONS=-Xmx1g");
      return ExitStatus.WRONG_INPUT;
    } catch (StackOverflowError e) {
      console.err().println("pawl: something in it nests too deeply; give it more room with PAWL_JAVA_OPTIONS=-Xss64m");
      return ExitStatus.WRONG_INPUT;
    } catch (RuntimeException | Error e) {
      return unexpected(e);
    }
  }

  private int dispatch(String[] arguments) {
    if (arguments.length == 0) {
      console.err().print(Overview.TEXT);
      return ExitStatus.WRONG_INPUT;
    }
    switch (arguments[0]) {
      case "--version", "-V", "version" -> {
        console.out().print(VersionText.TEXT);
        return ExitStatus.NOTHING_BROKEN;
      }
      case "--help", "-h", "help" -> {
        return help(arguments);
      }
      default -> {
        return CommandLines.run(Commands.of(arguments[0]), Arrays.copyOfRange(arguments, 1, arguments.length),
            console);
      }
    }
  }

  private int help(String[] arguments) {
    if (arguments.length > 1) {
      return CommandLines.run(Commands.of(arguments[1]), new String[] {"--help"}, console);
    }
    console.out().print(Overview.TEXT);
    return ExitStatus.NOTHING_BROKEN;
  }

  private int unexpected(Throwable problem) {
    console.err().println("pawl: unexpected problem, please report it: " + problem
        + (console.wantsDetail() ? "" : " (PAWL_DETAIL=1 shows where)"));
    if (console.wantsDetail()) {
      problem.printStackTrace(console.err());
    }
    return ExitStatus.WRONG_INPUT;
  }
}
