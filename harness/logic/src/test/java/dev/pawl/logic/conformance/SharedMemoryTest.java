package dev.pawl.logic.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import dev.pawl.logic.ScanMachine;
import dev.pawl.logic.TestMachine;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Addresses that overlap, against eight bytes and nothing else: numbers count bytes, the low byte first (common
 * practice, no source). Random statements copy between bits, bytes, words and double words, by names and by addresses.
 */
class SharedMemoryTest {

  private record Piece(String name, int first, int bits) {}

  private static long read(boolean[] memory, Piece piece) {
    long word = 0;
    for (int i = 0; i < piece.bits(); i++) {
      word |= memory[piece.first() + i] ? 1L << i : 0;
    }
    return word;
  }

  private static void write(boolean[] memory, Piece piece, long word) {
    for (int i = 0; i < piece.bits(); i++) {
      memory[piece.first() + i] = (word >> i & 1) != 0;
    }
  }

  @Test
  void isAsBytes() {
    StringBuilder declared = new StringBuilder("VAR_GLOBAL all AT %ML0 : LWORD := 16#0123456789ABCDEF;\n");
    List<Piece> pieces = new ArrayList<>(List.of(new Piece("all", 0, 64)));
    for (int at = 0; at < 8; at++) {
      piece(pieces, declared, "b" + at, "%MB" + at, "BYTE", at * 8, 8);
      piece(pieces, declared, "x" + at, "%MX" + at + "." + at, "BOOL", at * 9, 1);
      if (at % 2 == 0) {
        piece(pieces, declared, "w" + at, "%MW" + at, "WORD", at * 8, 16);
      }
      if (at % 4 == 0) {
        piece(pieces, declared, "d" + at, "%MD" + at, "DWORD", at * 8, 32);
      }
    }
    for (int seed = 0; seed < 40; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      boolean[] memory = new boolean[64];
      write(memory, pieces.get(0), 0x0123456789ABCDEFL);
      StringBuilder body = new StringBuilder();
      for (int i = 0; i < 30; i++) {
        Piece target = pieces.get(random.nextInt(pieces.size()));
        List<Piece> fitting = pieces.stream().filter(piece -> piece.bits() == target.bits()).toList();
        Piece source = fitting.get(random.nextInt(fitting.size()));
        boolean turned = random.nextBoolean();
        body.append(target.name()).append(" := ").append(turned ? "NOT " : "").append(source.name()).append(";\n");
        write(memory, target, turned ? ~read(memory, source) : read(memory, source));
      }
      ScanMachine machine = TestMachine.scanned(TestMachine.of(declared + "END_VAR\nPROGRAM P\n" + body
          + "END_PROGRAM"));
      for (Piece piece : pieces) {
        assertThat(machine.word(piece.name())).as("seed %d: %s after\n%s", seed, piece.name(), body)
            .isEqualTo(read(memory, piece));
      }
    }
  }

  /** Declares a piece, and takes its address for another one of the same bits. */
  private static void piece(List<Piece> pieces, StringBuilder declared, String name, String address, String type,
      int first, int bits) {
    declared.append(name).append(" AT ").append(address).append(" : ").append(type).append(";\n");
    pieces.add(new Piece(name, first, bits));
    pieces.add(new Piece(address, first, bits));
  }
}
