package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Syntax;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine.ParseResult;

/** {@code pawl completion}: what a shell has to know to complete commands and options, out of the table of commands. */
public final class CompletionCommand implements Command {

  private static final String BASH = """
      # Completion of pawl in bash. In ~/.bashrc: eval "$(pawl completion bash)"
      _pawl() {
        local word=${COMP_WORDS[COMP_CWORD]} words=
        if [ "$COMP_CWORD" -eq 1 ]; then
          words='%s'
        else
          case ${COMP_WORDS[1]}:$word in
            help:*) words='%s' ;;
      %s    esac
        fi
        # With no word from here bash completes the names of files.
        COMPREPLY=($(compgen -W "$words" -- "$word"))
      }
      complete -o default -F _pawl pawl
      """;

  private static final String ZSH = """
      # Completion of pawl in zsh. In ~/.zshrc, behind compinit: eval "$(pawl completion zsh)"
      _pawl() {
        if (( CURRENT == 2 )); then
          compadd -- %s
          return
        fi
        case $words[2]:$words[CURRENT] in
          help:*) compadd -- %s ;;
      %s    *) _files ;;
        esac
      }
      compdef _pawl pawl
      """;

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(), Operands.any("SHELL", "bash or zsh."),
        "Prints what lets a shell complete the commands and options of pawl.",
        "For bash, in ~/.bashrc: eval \"$(pawl completion bash)\"",
        "For zsh, in ~/.zshrc behind compinit: eval \"$(pawl completion zsh)\"");
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> shells = Operands.of(words);
    String commands = words(Stream.of(Commands.values()).map(Commands::word));
    if (shells.equals(List.of("bash"))) {
      console.out().print(String.format(BASH, commands + " help --help --version", commands,
          options("      %s:-*) words='%s' ;;\n")));
    } else if (shells.equals(List.of("zsh"))) {
      console.out().print(String.format(ZSH, commands + " help --help --version", commands,
          options("    %s:-*) compadd -- %s ;;\n")));
    } else {
      throw new CommandException("name the shell, bash or zsh ('pawl completion --help' shows how)");
    }
    return ExitStatus.NOTHING_BROKEN;
  }

  /** A line for each command with its options. */
  private static String options(String line) {
    return Stream.of(Commands.values())
        .map(command -> String.format(line, command.word(), words(command.make().syntax().names())))
        .collect(Collectors.joining());
  }

  private static String words(Stream<String> words) {
    return words.collect(Collectors.joining(" "));
  }
}
