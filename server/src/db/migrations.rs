//! The migrations, embedded. One that has landed is never edited: a file that
//! has run it would not open any more.

use std::sync::LazyLock;

use sqlx::SqlStr;
use sqlx::migrate::{Migration, MigrationType, Migrator};

/// All migrations, oldest first. A new one is added here.
pub static MIGRATOR: LazyLock<Migrator> = LazyLock::new(|| {
    let all = [
        include_str!("../../../migrations/sqlite/0001_house.sql"),
        include_str!("../../../migrations/sqlite/0002_inference.sql"),
        include_str!("../../../migrations/sqlite/0003_marking.sql"),
        include_str!("../../../migrations/sqlite/0004_year.sql"),
        include_str!("../../../migrations/sqlite/0005_moderation.sql"),
        include_str!("../../../migrations/sqlite/0006_indexes.sql"),
        include_str!("../../../migrations/sqlite/0007_scope.sql"),
        include_str!("../../../migrations/sqlite/0008_codes.sql"),
        include_str!("../../../migrations/sqlite/0009_words.sql"),
    ];
    let numbered = (1..).zip(all);
    let migrations = numbered.map(|(version, sql)| {
        let kind = MigrationType::Simple;
        Migration::new(version, "".into(), kind, SqlStr::from_static(sql), false)
    });
    Migrator::with_migrations(migrations.collect())
});
