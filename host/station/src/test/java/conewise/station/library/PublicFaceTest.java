package conewise.station.library;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.source.doctree.DocCommentTree;
import com.sun.source.doctree.ParamTree;
import com.sun.source.tree.ClassTree;
import com.sun.source.tree.CompilationUnitTree;
import com.sun.source.tree.IdentifierTree;
import com.sun.source.tree.MethodTree;
import com.sun.source.tree.Tree;
import com.sun.source.tree.VariableTree;
import com.sun.source.util.DocTrees;
import com.sun.source.util.JavacTask;
import com.sun.source.util.TreePathScanner;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.lang.model.element.Modifier;
import javax.tools.StandardJavaFileManager;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whoever uses the modules as a library finds a sentence on everything public, and on each
 * component of a record. Broken Javadoc is the compiler's business.
 */
class PublicFaceTest {
  private static final Path ROOT = Path.of("..", "..");

  @TempDir Path folder;

  @Test
  void everythingPublicOfTheLibraryIsDescribed() throws IOException {
    List<Path> sources = new ArrayList<>();
    for (String module : List.of("protocol", "host/analysis", "host/jig")) {
      try (Stream<Path> files = Files.walk(ROOT.resolve(module).resolve("src/main/java"))) {
        files.filter(each -> each.toString().endsWith(".java")).forEach(sources::add);
      }
    }
    assertTrue(sources.size() > 200, sources.size() + " files");
    assertEquals(Set.of(), missing(sources));
  }

  /** A check that cannot fail would hold nothing. */
  @Test
  void whatIsNotDescribedIsTold() throws IOException {
    Path file = folder.resolve("Bare.java");
    Files.writeString(
        file,
        """
        package bare;
        public class Bare {
          /** Said. */
          public void said() {}
          public void silent() {}
          void hidden() {}
          @Override public String toString() { return ""; }
          /**
           * A pair.
           * @param left one
           */
          public record Pair(int left, int right) { public Pair {} }
        }
        """);
    assertEquals(Set.of("Bare", "Bare.silent", "Pair's component right"), missing(List.of(file)));
  }

  private static Set<String> missing(List<Path> sources) throws IOException {
    var compiler = ToolProvider.getSystemJavaCompiler();
    Set<String> missing = new TreeSet<>();
    try (StandardJavaFileManager files = compiler.getStandardFileManager(null, null, null)) {
      JavacTask task =
          (JavacTask)
              compiler.getTask(
                  null, files, null, null, null, files.getJavaFileObjectsFromPaths(sources));
      DocTrees documents = DocTrees.instance(task);
      for (CompilationUnitTree unit : task.parse()) {
        new Look(documents, missing).scan(unit, null);
      }
    }
    return missing;
  }

  /** Goes through one file; what is not public is not gone into. */
  private static final class Look extends TreePathScanner<Void, Void> {
    private final DocTrees documents;
    private final Set<String> missing;

    Look(DocTrees documents, Set<String> missing) {
      this.documents = documents;
      this.missing = missing;
    }

    @Override
    public Void visitClass(ClassTree type, Void nothing) {
      boolean inInterface =
          getCurrentPath().getParentPath().getLeaf() instanceof ClassTree outer
              && outer.getKind() == Tree.Kind.INTERFACE;
      if (!inInterface && !type.getModifiers().getFlags().contains(Modifier.PUBLIC)) {
        return null;
      }
      DocCommentTree comment = documents.getDocCommentTree(getCurrentPath());
      if (comment == null) {
        missing.add(type.getSimpleName().toString());
      } else if (type.getKind() == Tree.Kind.RECORD) {
        lookAtComponents(type, comment);
      }
      return super.visitClass(type, null);
    }

    private void lookAtComponents(ClassTree type, DocCommentTree comment) {
      Set<String> told =
          comment.getBlockTags().stream()
              .filter(ParamTree.class::isInstance)
              .map(tag -> ((ParamTree) tag).getName().getName().toString())
              .collect(Collectors.toSet());
      for (Tree member : type.getMembers()) {
        if (member instanceof VariableTree field
            && !field.getModifiers().getFlags().contains(Modifier.STATIC)
            && !told.contains(field.getName().toString())) {
          missing.add(type.getSimpleName() + "'s component " + field.getName());
        }
      }
    }

    @Override
    public Void visitMethod(MethodTree method, Void nothing) {
      ClassTree owner = (ClassTree) getCurrentPath().getParentPath().getLeaf();
      boolean seen =
          method.getModifiers().getFlags().contains(Modifier.PUBLIC)
              || (owner.getKind() == Tree.Kind.INTERFACE
                  && !method.getModifiers().getFlags().contains(Modifier.PRIVATE));
      boolean asInherited =
          method.getModifiers().getAnnotations().stream()
              .anyMatch(
                  each ->
                      each.getAnnotationType() instanceof IdentifierTree name
                          && name.getName().contentEquals("Override"));
      boolean ofRecord = owner.getKind() == Tree.Kind.RECORD && method.getReturnType() == null;
      if (seen
          && !asInherited
          && !ofRecord
          && documents.getDocCommentTree(getCurrentPath()) == null) {
        missing.add(owner.getSimpleName() + "." + method.getName());
      }
      return null;
    }
  }
}
