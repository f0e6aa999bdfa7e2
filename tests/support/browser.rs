//! Browsers that visit the application.

use axum::body::Body;
use axum::http::Request;

use super::form::{BOUNDARY, encode, multipart};
use super::{CLASS_SET, Part, Reply, TestApp, but, pairs};

/// Name of the teacher in tests.
pub(crate) const NAME: &str = "Ms Fell";
/// Her password.
pub(crate) const PASSWORD: &str = "pond ripple lamp";

/// A browser with its cookies.
pub(crate) struct Browser {
    pub(crate) app: TestApp,
    pub(super) cookies: Vec<(String, String)>,
}

impl Browser {
    pub(crate) async fn get(&mut self, path: &str) -> Reply {
        let request = self.request("GET", path).body(Body::empty()).unwrap();
        self.send(request).await
    }

    /// Opens a page that is there for whoever asks.
    pub(crate) async fn opens(&mut self, path: impl AsRef<str>) -> Reply {
        self.get(path.as_ref()).await.expect(200)
    }

    /// Sends a form as a browser on the school's network does: with `Origin`.
    pub(crate) async fn post(&mut self, path: &str, pairs: &[(&str, &str)]) -> Reply {
        let request = self
            .request("POST", path)
            .header("origin", "http://lab.test")
            .header("content-type", "application/x-www-form-urlencoded")
            .body(Body::from(encode(pairs)))
            .unwrap();
        self.send(request).await
    }

    /// Sends a staff form that may have a file in it, with the token that a
    /// page gave out.
    pub(crate) async fn upload(
        &mut self,
        path: &str,
        pairs: &[(&str, &str)],
        file: Option<&[u8]>,
    ) -> Reply {
        let token = self.opens("/class-sets").await.hidden("token");
        let mut all = vec![("token", token.as_str())];
        all.extend_from_slice(pairs);
        self.send_upload(path, &all, file).await
    }

    /// The same with the pairs alone.
    pub(crate) async fn send_upload(
        &mut self,
        path: &str,
        pairs: &[(&str, &str)],
        file: Option<&[u8]>,
    ) -> Reply {
        let request = self.uploading(path, pairs, file);
        self.send(request).await
    }

    /// The request that sends such a form.
    pub(crate) fn uploading(
        &self,
        path: &str,
        pairs: &[(&str, &str)],
        file: Option<&[u8]>,
    ) -> Request<Body> {
        let kind = format!("multipart/form-data; boundary={BOUNDARY}");
        self.request("POST", path)
            .header("origin", "http://lab.test")
            .header("content-type", kind)
            .body(Body::from(multipart(pairs, file)))
            .unwrap()
    }

    /// Sends a staff form with the token that a page gave out.
    pub(crate) async fn post_staff(&mut self, path: &str, pairs: &[(&str, &str)]) -> Reply {
        let token = self.opens("/class-sets").await.hidden("token");
        let mut all = vec![("token", token.as_str())];
        all.extend_from_slice(pairs);
        self.post(path, &all).await
    }

    /// Sends a staff form that is taken, and leads on.
    pub(crate) async fn sends(&mut self, path: impl AsRef<str>, pairs: &[(&str, &str)]) -> Reply {
        self.post_staff(path.as_ref(), pairs).await.expect(303)
    }

    /// Sends a form of a page as it stands there, but for these boxes.
    pub(crate) async fn fill(&mut self, form: &Part, boxes: &[(&str, &str)]) -> Reply {
        let mut fields = form.fields();
        fields.retain(|(name, _)| boxes.iter().all(|(changed, _)| changed != name));
        let all = [&pairs(&fields), boxes].concat();
        self.post(form.attr("action"), &all).await
    }

    /// Signs the teacher in.
    pub(crate) async fn signs_in(&mut self) {
        let who = [("name", NAME), ("password", PASSWORD)];
        self.post("/staff/sign-in", &who).await.expect(303);
    }

    /// A colleague of this name, whom this head of department invites.
    pub(crate) async fn colleague(&mut self, name: &str) -> Self {
        let link = self.invite().await;
        let mut colleague = self.app.browser();
        let account = [("name", name), ("password", PASSWORD), ("again", PASSWORD)];
        colleague.post(&link, &account).await.expect(303);
        colleague
    }

    /// Invites somebody; the path of the link that the page shows.
    pub(crate) async fn invite(&mut self) -> String {
        let page = self.post_staff("/staff/invite", &[]).await.expect(200);
        let address = page.at("code").words();
        address.strip_prefix("http://lab.test").unwrap().to_owned()
    }

    /// Makes a class set of four groups; its address and its join code.
    pub(crate) async fn make_class_set(&mut self, method: &str) -> (String, String) {
        self.make_class_set_of(method, "4").await
    }

    /// The same with another number of groups.
    pub(crate) async fn make_class_set_of(
        &mut self,
        method: &str,
        groups: &str,
    ) -> (String, String) {
        let boxes = but(but(CLASS_SET, "method", method), "groups", groups);
        let made = self.sends("/class-sets/new", &boxes).await;
        let url = made.location().to_owned();
        let page = self.opens(&url).await;
        (url, page.at(".code-large").words())
    }

    /// Chooses a bench for the first time; its come-back number.
    pub(crate) async fn take_bench(&mut self, code: &str, label: &str) -> String {
        let page = self
            .post(&format!("/c/{code}"), &[("bench", label)])
            .await
            .expect(200);
        page.at(".code-large").words()
    }

    /// Opens a sheet; the key of its draft.
    pub(crate) async fn open_sheet(&mut self, url: &str) -> String {
        self.opens(url).await.hidden("draft")
    }

    /// Opens a sheet and sends it with this button, and it is kept.
    pub(crate) async fn keeps(&mut self, url: &str, act: &str, boxes: &[(&str, &str)]) -> Reply {
        let draft = self.open_sheet(url).await;
        self.send_sheet(url, &draft, act, boxes).await.expect(303)
    }

    /// Sends a sheet with this draft and button.
    pub(crate) async fn send_sheet(
        &mut self,
        url: &str,
        draft: &str,
        act: &str,
        boxes: &[(&str, &str)],
    ) -> Reply {
        let mut all = vec![("draft", draft), ("act", act)];
        all.extend_from_slice(boxes);
        self.post(url, &all).await
    }

    pub(crate) fn request(&self, method: &str, path: &str) -> axum::http::request::Builder {
        let cookies: Vec<_> = self
            .cookies
            .iter()
            .map(|(n, v)| format!("{n}={v}"))
            .collect();
        let builder = Request::builder()
            .method(method)
            .uri(path)
            .header("host", "lab.test");
        if cookies.is_empty() {
            builder
        } else {
            builder.header("cookie", cookies.join("; "))
        }
    }

    pub(crate) async fn send(&mut self, request: Request<Body>) -> Reply {
        let reply = self.app.send(request).await;
        for set in reply.headers.get_all("set-cookie") {
            let (name, rest) = set.to_str().unwrap().split_once('=').unwrap();
            let value = rest.split(';').next().unwrap();
            self.cookies.retain(|(n, _)| n != name);
            if !value.is_empty() {
                self.cookies.push((name.to_owned(), value.to_owned()));
            }
        }
        reply
    }

    /// Value of a cookie.
    pub(crate) fn cookie(&self, name: &str) -> Option<String> {
        self.cookies
            .iter()
            .find(|(n, _)| n == name)
            .map(|(_, v)| v.clone())
    }

    /// Puts a cookie there.
    pub(crate) fn set_cookie(&mut self, name: &str, value: &str) {
        self.cookies.retain(|(n, _)| n != name);
        self.cookies.push((name.to_owned(), value.to_owned()));
    }
}
