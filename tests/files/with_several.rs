//! Files that hold more than the class set's own lines.

use crate::support::{Lesson, Reply};

async fn preview(at: &mut Lesson, lines: &str) -> Reply {
    let file = format!("class,group,method,row,dial,length,length_unit,length_loops,kit\n{lines}");
    at.previews(&file).await
}

#[tokio::test]
async fn of_several_classes_the_one_of_the_class_set_is_taken() {
    let mut at = Lesson::of("string-loops").await;
    let ours = "10b/ph2 ,A,string-loops,1,20,1.2,m,1,\n";
    let others = "8A,B,string-loops,1,20,1.2,m,1,\n,C,string-loops,1,20,1.2,m,1,\n";
    let page = preview(&mut at, &format!("{ours}{others}")).await;
    page.expect(200)
        .says("The file has lines of 8A, no class. They are left out; those of 10B/Ph2 are taken.")
        .says("Group A</h2>")
        .says_nothing_of("Group B")
        .says_nothing_of("Group C");
    let page = preview(&mut at, others).await.expect(422);
    page.says("this class set is of 10B/Ph2. Write that name in the column class, or leave the column blank.");
}

#[tokio::test]
async fn lines_without_a_class_are_all_taken() {
    let mut at = Lesson::of("string-loops").await;
    let page = preview(&mut at, ",A,string-loops,1,20,1.2,m,1,\n").await;
    page.expect(200)
        .says("Group A</h2>")
        .says_nothing_of("left out");
}

#[tokio::test]
async fn sheets_of_another_practical_are_left_out_and_it_is_said() {
    let mut at = Lesson::of("string-loops").await;
    let water = ",A,ripple-tank,1,20,,,,\n";
    let lines = format!(",A,string-loops,1,20,1.2,m,1,\n{water}");
    let said = "Sheets of another practical are left out (1): this class set is of string-loops.";
    let page = preview(&mut at, &lines).await.expect(200);
    page.says(said).says("1 group has stored nothing yet.");
    let page = preview(&mut at, water).await.expect(422);
    page.says(said);
}

#[tokio::test]
async fn group_in_whose_lines_nothing_stands_is_passed_over() {
    let mut at = Lesson::of("string-loops").await;
    let page = preview(&mut at, ",A,string-loops,1,,,,,\n").await;
    page.expect(422)
        .says("Nothing stands in the lines of group A.");
    let page = preview(&mut at, "").await;
    page.expect(422)
        .says("The file has no lines below its column names.");
}

#[tokio::test]
async fn labels_that_no_bench_can_have_are_said_and_left_out() {
    let mut at = Lesson::of("string-loops").await;
    for label in ["Ann and Bo", "A/B", "..", "123456789", "A B"] {
        let line = format!(",{label},string-loops,1,20,1.2,m,1,\n");
        let page = preview(&mut at, &line).await.expect(200);
        page.says("none can be added")
            .lacks("[name^='take.']")
            .says_nothing_of("Keep these readings");
    }
}

#[tokio::test]
async fn class_set_has_no_room_for_more_than_forty_groups() {
    let mut at = Lesson::of("string-loops").await;
    let lines = |count: usize| -> String {
        let line = |n| format!(",G{n},string-loops,1,20,1.2,m,1,\n");
        (0..count).map(line).collect()
    };
    let page = preview(&mut at, &lines(36)).await.expect(200);
    page.says_nothing_of("none can be added");
    let page = preview(&mut at, &lines(37)).await.expect(200);
    assert_eq!(page.count("at most 40 groups"), 1);
    assert_eq!(page.count("name=\"take."), 36);
}
