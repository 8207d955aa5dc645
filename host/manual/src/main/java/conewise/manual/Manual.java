package conewise.manual;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes the manual of a repository. */
public final class Manual {
  private Manual() {}

  /**
   * Checks the repository's pages, writes the set and checks that.
   *
   * @param arguments the repository's root, and the folder to write to
   * @throws IOException when a page cannot be read, or the set not be written
   */
  public static void main(String[] arguments) throws IOException {
    if (arguments.length != 2) {
      System.err.println("manual: give the repository's folder and the folder to write to.");
      System.exit(64);
    }
    Path folder = Path.of(arguments[1]);
    List<String> mistakes = written(Path.of(arguments[0]).toAbsolutePath().normalize(), folder);
    mistakes.forEach(each -> System.out.println("manual: " + each));
    if (mistakes.isEmpty()) {
      System.out.println("manual: " + folder.resolve("index.html"));
    }
    System.exit(mistakes.isEmpty() ? 0 : 1);
  }

  /**
   * Writes the set.
   *
   * @param root the repository
   * @param folder where it goes; what stands there is replaced, file by file
   * @return the mistakes found, one sentence each; with any in the repository nothing is written
   * @throws IOException when a page cannot be read, or the set not be written
   */
  static List<String> written(Path root, Path folder) throws IOException {
    Repository repository = Repository.read(root);
    List<String> mistakes = new ArrayList<>(LinkCheck.mistakes(repository));
    if (mistakes.isEmpty()) {
      new ManualFolder(repository, folder).write();
      mistakes.addAll(SetCheck.mistakes(folder));
    }
    return mistakes;
  }
}
