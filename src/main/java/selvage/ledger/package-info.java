/**
 * The history of jobs, strips and scores in a database: SQLite by default, PostgreSQL by its URL.
 * {@link selvage.ledger.Ledger} is the entry. What goes in are the records that lie as JSON beside
 * proofs and measurements ({@link selvage.ledger.JobRecord}, {@link selvage.ledger.ScoreRecord});
 * these files are the record of truth, and {@link selvage.ledger.LedgerRebuild} makes the ledger
 * anew from them. Statistics are not made here.
 */
package selvage.ledger;
