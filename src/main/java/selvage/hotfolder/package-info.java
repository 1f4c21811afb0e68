/**
 * The hot folder: files dropped in come back as stamped proofs, scores, or refusals that say why.
 *
 * <p>Entry point: {@link selvage.hotfolder.Watch}. In: {@link selvage.hotfolder.WatchSettings}.
 * Out: files in the folders, records in the ledger, {@link selvage.hotfolder.EventLog} lines.
 *
 * <p>A file is taken by an atomic rename into a claim ({@link selvage.hotfolder.Claim}) beside its
 * folder, worked on by a process of its own ({@link selvage.hotfolder.WorkerProcess}), and settled
 * by a written plan of moves ({@link selvage.hotfolder.Settlement}) that can be carried out again
 * from any point. It reads no job and chooses no colour itself.
 */
package selvage.hotfolder;
