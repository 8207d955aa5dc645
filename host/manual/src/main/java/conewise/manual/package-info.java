/**
 * The repository's pages as one linked set for a browser. {@link conewise.manual.Manual} is the
 * entry: it reads the pages that stand in the repository, holds every link, anchor and picture of
 * them ({@code LinkCheck}), writes them as HTML without a script ({@code PageHtml}) and holds the
 * links of what it wrote ({@code SetCheck}). It belongs to the build; the application does not ship
 * it.
 */
package conewise.manual;
